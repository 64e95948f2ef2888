import type { ApiProblem } from '#service/api-types.ts'
import { heard, notHeard } from '../offline/connection.ts'

/** The service answered, and said no. */
export class ProblemError extends Error {
  override name = 'ProblemError'
  readonly problem: ApiProblem
  /** How long to wait before asking again, where the service has said so. */
  readonly waitMillis: number | null
  constructor(problem: ApiProblem, waitMillis: number | null = null) {
    super(problem.detail === '' ? problem.title : problem.detail)
    this.problem = problem
    this.waitMillis = waitMillis
  }
}

/** No answer came: nothing is known of whether the service heard. */
export class NoAnswerError extends Error {
  override name = 'NoAnswerError'
}

/** Whether a problem is one of the service's passing troubles, so that sending again may succeed. */
export function isPassing(error: unknown): boolean {
  if (error instanceof NoAnswerError) return true
  return error instanceof ProblemError && (error.problem.status >= 500 || isTooMuch(error))
}

/** More came at once than the service answers: it wrote nothing. */
export function isTooMuch(error: unknown): boolean {
  return error instanceof ProblemError && error.problem.status === 429
}

/** The record could not be asked: no network, no service, or the service cannot reach its record. */
export function isUnheard(error: unknown): boolean {
  if (error instanceof NoAnswerError) return true
  if (!(error instanceof ProblemError)) return false
  const { status, type } = error.problem
  return status === 502 || status === 504 || type === '/problems/record-trouble'
}

/** Nobody is signed in any more: whoever comes next finds what was entered. */
export function isSignedOut(error: unknown): boolean {
  return error instanceof ProblemError && error.problem.type === '/problems/not-signed-in'
}

/** Told to the page when an answer says that nobody is signed in. */
export const signedOutEvent = 'nilgrowth:signed-out'

/** The one place where an answer becomes a value or a typed problem, and where it shows whether the service is there. */
export async function ask<Answer>(path: string, init?: RequestInit): Promise<Answer> {
  try {
    const answer = await answerOf<Answer>(path, init)
    heard()
    return answer
  } catch (error) {
    // Whoever leaves a page takes the question back: that says nothing of the service.
    const takenBack =
      error instanceof NoAnswerError && error.cause instanceof Error && error.cause.name === 'AbortError'
    if (!takenBack) (isUnheard(error) ? notHeard : heard)()
    throw error
  }
}

async function answerOf<Answer>(path: string, init?: RequestInit): Promise<Answer> {
  let response: Response
  try {
    response = await fetch(path, init)
  } catch (error) {
    throw new NoAnswerError(path, { cause: error })
  }
  const json = (response.headers.get('content-type') ?? '').includes('json')
  if (response.ok && json) return (await response.json()) as Answer
  if (json) {
    const error = new ProblemError((await response.json()) as ApiProblem, waitOf(response))
    if (isSignedOut(error)) dispatchEvent(new Event(signedOutEvent))
    throw error
  }
  if (response.ok) return (await response.text()) as Answer
  const { status, statusText } = response
  const detail = await response.text()
  throw new ProblemError({ type: 'about:blank', title: statusText, status, detail, remedy: '' }, waitOf(response))
}

/** In seconds; a proxy may name a date instead, which is left to whoever asks. */
function waitOf({ headers }: Response): number | null {
  const seconds = headers.get('retry-after')
  return seconds !== null && /^\d+$/.test(seconds) ? Number(seconds) * 1000 : null
}

export function post<Answer>(path: string, body: unknown, patienceMillis?: number): Promise<Answer> {
  return sendJson('POST', path, body, patienceMillis)
}

export function put<Answer>(path: string, body: unknown): Promise<Answer> {
  return sendJson('PUT', path, body)
}

function sendJson<Answer>(method: string, path: string, body: unknown, patienceMillis?: number): Promise<Answer> {
  return ask(path, {
    method,
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
    signal: patienceMillis === undefined ? null : AbortSignal.timeout(patienceMillis),
  })
}
