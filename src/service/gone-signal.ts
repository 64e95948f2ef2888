import type { ServerResponse } from 'node:http'

/** Says when nobody waits for an answer any more, so that its work ends. */
export function goneSignal(answer: ServerResponse): AbortSignal {
  // Who left before the question was looked at is not heard leaving.
  if (answer.closed) return AbortSignal.abort()
  const gone = new AbortController()
  answer.once('close', () => gone.abort())
  return gone.signal
}
