import { type AddressInfo, connect, createServer, type Socket } from 'node:net'

/** The way between a browser and the service, which a test can cut: what is open breaks, and nothing new comes through. */
export class NetworkLine implements AsyncDisposable {
  readonly url: string
  readonly #server: ReturnType<typeof createServer>
  readonly #open: Set<Socket>
  #isCut = false

  private constructor(server: ReturnType<typeof createServer>, open: Set<Socket>) {
    this.#server = server
    this.#open = open
    this.url = `http://localhost:${(server.address() as AddressInfo).port}`
  }

  static async to(url: string): Promise<NetworkLine> {
    const { port } = new URL(url)
    const open = new Set<Socket>()
    const cut = { is: (): boolean => false }
    const server = createServer((near) => {
      if (cut.is()) return near.destroy()
      const far = connect(Number(port), 'localhost')
      for (const [socket, other] of [
        [near, far],
        [far, near],
      ] as const) {
        open.add(socket)
        // A line that breaks is what is tried here; it tells nobody.
        socket.on('error', () => {})
        socket.on('close', () => {
          open.delete(socket)
          other.destroy()
        })
        socket.pipe(other)
      }
    })
    await new Promise<void>((resolve) => server.listen(0, 'localhost', resolve))
    const line = new NetworkLine(server, open)
    cut.is = () => line.#isCut
    return line
  }

  cut(): void {
    this.#isCut = true
    for (const socket of this.#open) socket.destroy()
  }

  join(): void {
    this.#isCut = false
  }

  async [Symbol.asyncDispose](): Promise<void> {
    this.cut()
    await new Promise((resolve) => this.#server.close(resolve))
  }
}
