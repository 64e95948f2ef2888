import type { Instant } from '#road/instant.ts'

/** Says something to who looks after the computer. Never who did something, nor what is recorded of anybody. */
export type Say = (line: string, level?: 'info' | 'error') => void

/** One answered request: the route as it is written in the list, so that no name and no key of an address is told. */
export interface AnsweredRequest {
  readonly id: string
  readonly method: string
  readonly route: string
  readonly status: number
  readonly milliseconds: number
}

export interface ServiceLog {
  readonly say: Say
  readonly answered: (request: AnsweredRequest) => void
}

interface LogOptions {
  readonly form: 'plain' | 'json'
  readonly now: () => Instant
  /** Takes one line, without its end. */
  readonly write: (line: string) => void
}

/** `json`: each event is one line of JSON, requests included. `plain`: for a person at the console; requests are not told. */
export function serviceLog({ form, now, write }: LogOptions): ServiceLog {
  if (form === 'plain') return { say: (line) => write(plainLine(line)), answered: () => undefined }
  const event = (level: string, rest: object): void => write(JSON.stringify({ time: now(), level, ...rest }))
  return {
    say: (line, level = 'info') => event(level, { event: 'said', says: line }),
    answered: (request) => event(request.status >= 500 ? 'error' : 'info', { event: 'request', ...request }),
  }
}

/** What came from outside may hold the end of a line: what follows it is set in, so that it passes for no line of ours. */
export function plainLine(text: string): string {
  const shown = (character: string) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`
  // oxlint-disable-next-line no-control-regex -- these are what a terminal would obey
  return text.replaceAll(/\r?\n/g, '\n    ').replaceAll(/[\u0000-\u0008\u000B-\u001F\u007F-\u009F\u2028\u2029]/g, shown)
}
