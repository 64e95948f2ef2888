import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { troubleOf } from '#journal/store-trouble.ts'
import type { Problem } from '#units/problem.ts'
import type { ApiProblem } from './api-types.ts'
import { TookTooLong } from './compute/compute.ts'
import type { Say } from './operation/log.ts'
import { sendProblem } from './problem-reply.ts'
import {
  brokenRequest,
  noSuchRoute,
  notJson,
  ourFailure,
  recordTrouble,
  tooLarge,
  tookTooLong,
  unusableInput,
  wrongMediaType,
  wrongMethod,
} from './problems.ts'

/** What a validator throws: the schema's own account of what is wrong, with the input that it read. */
export class UnusablePart extends Error {
  readonly problem: ApiProblem

  constructor(part: string, problems: readonly Problem[]) {
    super(`unusable ${part}`)
    this.problem = unusableInput(
      problems.map((problem) => (problem.field === 'input' ? { ...problem, field: part } : problem)),
    )
  }
}

/** Turns everything thrown on the way into one problem: the sender's mistakes named, ours numbered and logged. */
export function setErrorHandler(app: FastifyInstance, log: Say): void {
  app.setErrorHandler((error, request, reply) => sendProblem(reply, problemFor(error, request, log)))
}

const methods = ['GET', 'POST', 'PUT', 'DELETE'] as const

/** A known address under another method is a wrong method; any other is no address. */
export function answerNoRoute(app: FastifyInstance, request: FastifyRequest, reply: FastifyReply): FastifyReply {
  const path = pathOf(request)
  const allowed = methods.filter((method) => app.findRoute({ method, url: path }))
  if (allowed.length === 0) return sendProblem(reply, noSuchRoute(request.method, path))
  return sendProblem(reply.header('allow', allowed.join(', ')), wrongMethod(allowed, request.method))
}

export function pathOf(request: FastifyRequest): string {
  return request.url.split('?', 1)[0] ?? request.url
}

function problemFor(error: unknown, request: FastifyRequest, log: Say): ApiProblem {
  if (error instanceof UnusablePart) return error.problem
  if (error instanceof TookTooLong) return tookTooLong(error.seconds)
  const trouble = troubleOf(error)
  if (trouble !== undefined) {
    log(`the record cannot be used: ${trouble.message}`, 'error')
    return recordTrouble(trouble.message)
  }
  switch (codeOf(error)) {
    case 'FST_ERR_CTP_BODY_TOO_LARGE':
      return tooLarge(request.routeOptions.bodyLimit, `${request.headers['content-length'] ?? 'more'} bytes`)
    case 'FST_ERR_CTP_INVALID_MEDIA_TYPE':
      return wrongMediaType(wantedMediaType(request), request.headers['content-type'] ?? 'missing')
    case 'FST_ERR_CTP_EMPTY_JSON_BODY':
      return notJson('empty')
    case 'FST_ERR_CTP_INVALID_JSON_BODY':
      return notJson('text that no JSON reader takes')
    case 'FST_ERR_CTP_INVALID_CONTENT_LENGTH':
    case 'FST_ERR_BAD_URL':
      return brokenRequest(messageOf(error))
    default:
      return ours(error, request, log)
  }
}

function ours(error: unknown, request: FastifyRequest, log: Say): ApiProblem {
  const { id } = request
  const trace = error instanceof Error ? (error.stack ?? error.message) : String(error)
  log(`failure ${id} at ${request.method} ${request.routeOptions.url ?? '?'}: ${trace}`, 'error')
  return ourFailure(id)
}

function wantedMediaType(request: FastifyRequest): string {
  return request.routeOptions.url === '/api/attachments' ? 'the type of the file, such as text/csv' : 'application/json'
}

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : ''
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : 'not readable'
}
