import { connect } from 'node:net'

/** Where a label printer listens: `10.0.0.7:9100`. */
export interface PrinterAddress {
  readonly host: string
  readonly port: number
}

/** What is wanted of an address, for whoever wrote another. */
export const wantedPrinter = 'a name or address and a port, such as 10.0.0.7:9100'

export function readPrinter(text: string): PrinterAddress | undefined {
  const [, bracketed, plain, digits] = /^(?:\[([0-9a-f:.]+)\]|([\w.-]+)):(\d{1,5})$/i.exec(text) ?? []
  const host = bracketed ?? plain
  const port = Number(digits)
  return host === undefined || port < 1 || port > 65_535 ? undefined : { host, port }
}

const patienceMillis = 5000

/**
 * Sends text to a printer as it is (raw TCP, port 9100 by custom). Such a printer answers nothing: that all was sent is known, not
 * that a label came out. Gives what went wrong, in words; undefined when it was sent.
 */
export function sendToPrinter({ host, port }: PrinterAddress, text: string): Promise<string | undefined> {
  return new Promise((done) => {
    const socket = connect({ host, port })
    const end = (problem: string | undefined) => {
      socket.destroy()
      done(problem)
    }
    socket.setTimeout(patienceMillis, () => end(`no answer within ${patienceMillis / 1000} s`))
    socket.once('error', (error) => end(error.message))
    socket.once('connect', () => socket.end(text, () => socket.once('close', () => end(undefined))))
    // What it may say is thrown away, so that its end is seen.
    socket.resume()
  })
}
