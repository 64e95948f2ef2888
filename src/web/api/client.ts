import type { ApiProblem } from '#service/api-types.ts'

/** The service answered, and said no. */
export class ProblemError extends Error {
  override name = 'ProblemError'
  readonly problem: ApiProblem
  constructor(problem: ApiProblem) {
    super(problem.detail === '' ? problem.title : problem.detail)
    this.problem = problem
  }
}

/** No answer came: nothing is known of whether the service heard. */
export class NoAnswerError extends Error {
  override name = 'NoAnswerError'
}

/** Whether a problem is one of the service's passing troubles, so that sending again may succeed. */
export function isPassing(error: unknown): boolean {
  if (error instanceof NoAnswerError) return true
  return error instanceof ProblemError && (error.problem.status >= 500 || error.problem.status === 429)
}

/** Nobody is signed in any more: whoever comes next finds what was entered. */
export function isSignedOut(error: unknown): boolean {
  return error instanceof ProblemError && error.problem.type === '/problems/not-signed-in'
}

/** Told to the page when an answer says that nobody is signed in. */
export const signedOutEvent = 'nilgrowth:signed-out'

/** The one place where an answer becomes a value or a typed problem. */
export async function ask<Answer>(path: string, init?: RequestInit): Promise<Answer> {
  let response: Response
  try {
    response = await fetch(path, init)
  } catch (error) {
    throw new NoAnswerError(path, { cause: error })
  }
  const json = (response.headers.get('content-type') ?? '').includes('json')
  if (response.ok && json) return (await response.json()) as Answer
  if (json) {
    const error = new ProblemError((await response.json()) as ApiProblem)
    if (isSignedOut(error)) dispatchEvent(new Event(signedOutEvent))
    throw error
  }
  if (response.ok) return (await response.text()) as Answer
  const { status, statusText } = response
  const detail = await response.text()
  throw new ProblemError({ type: 'about:blank', title: statusText, status, detail, remedy: '' })
}

export function post<Answer>(path: string, body: unknown): Promise<Answer> {
  return sendJson('POST', path, body)
}

export function put<Answer>(path: string, body: unknown): Promise<Answer> {
  return sendJson('PUT', path, body)
}

function sendJson<Answer>(method: string, path: string, body: unknown): Promise<Answer> {
  return ask(path, {
    method,
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
}
