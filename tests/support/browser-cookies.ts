import assert from 'node:assert/strict'

export interface Said {
  readonly status: number
  readonly body: unknown
}

interface RawRequest {
  readonly method: string
  readonly path: string
  readonly headers: Readonly<Record<string, string>>
  readonly body: string | Uint8Array<ArrayBuffer> | undefined
}

interface RawSaid {
  readonly status: number
  readonly type: string
  readonly text: string
  /** The kind of problem. */
  readonly says: string | undefined
}

/** A browser without a screen: it keeps the cookies that it is given, and sends them. */
export class CookieBrowser {
  readonly #url: string
  readonly #cookies = new Map<string, string>()

  constructor(url: string) {
    this.#url = url
  }

  async ask(method: string, path: string, body?: unknown): Promise<Said> {
    const response = await fetch(`${this.#url}${path}`, {
      method,
      headers: {
        cookie: this.#sent(),
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    })
    for (const cookie of response.headers.getSetCookie()) this.#take(cookie)
    // A stream does not end by itself.
    if (response.headers.get('content-type')?.startsWith('text/event-stream')) {
      await response.body?.cancel()
      return { status: response.status, body: null }
    }
    const text = await response.text()
    const isJson = response.headers.get('content-type')?.includes('json') === true
    return { status: response.status, body: isJson ? (JSON.parse(text) as unknown) : text }
  }

  /** Opens the stream of changes; gives when it has ended. */
  async follow(): Promise<{ readonly status: number; readonly ended: Promise<string> }> {
    const response = await fetch(`${this.#url}/api/live`, { headers: { cookie: this.#sent() } })
    return { status: response.status, ended: response.text() }
  }

  /** Sends exactly this, takes no cookie from the answer, and reads no further than the beginning of a stream. */
  async raw({ method, path, headers, body }: RawRequest): Promise<RawSaid> {
    const response = await fetch(`${this.#url}${path}`, {
      method,
      headers: { ...headers, cookie: this.#sent() },
      ...(body === undefined ? {} : { body }),
    })
    const type = response.headers.get('content-type') ?? ''
    if (type.startsWith('text/event-stream')) await response.body?.cancel()
    const text = response.bodyUsed ? '' : await response.text()
    const says = type.startsWith('application/problem+json') ? (JSON.parse(text) as { type: string }).type : undefined
    return { status: response.status, type, text, says }
  }

  #sent(): string {
    return [...this.#cookies].map(([name, value]) => `${name}=${value}`).join('; ')
  }

  /** The cookies of this browser in the hands of somebody else. */
  copy(): CookieBrowser {
    const other = new CookieBrowser(this.#url)
    for (const [name, value] of this.#cookies) other.#cookies.set(name, value)
    return other
  }

  /** Its session ends here without anybody having ended it, as when a browser is closed. */
  loseSession(): void {
    for (const name of this.#cookies.keys()) if (name.endsWith('session')) this.#cookies.delete(name)
  }

  #take(cookie: string): void {
    assert.match(cookie, /HttpOnly/, 'no script reads it')
    assert.match(cookie, /SameSite=Strict/, 'no page of another site sends it')
    const [name = '', value = ''] = (cookie.split(';')[0] ?? '').split('=')
    if (value === '') this.#cookies.delete(name)
    else this.#cookies.set(name, value)
  }
}
