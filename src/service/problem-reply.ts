import type { FastifyReply } from 'fastify'
import type { ApiProblem } from './api-types.ts'
import { fhirBase, fhirMediaType, outcomeOf } from './fhir/around.ts'
import { tooManyRequests } from './problems.ts'

export const problemMediaType = 'application/problem+json'

/** Answers that it was too much, and after how many seconds to ask again. */
export function sendWait(reply: FastifyReply, seconds: number): FastifyReply {
  return sendProblem(reply.header('retry-after', seconds), tooManyRequests(seconds))
}

/** Answers with a problem. The only way in which this service says no. */
export function sendProblem(reply: FastifyReply, problem: ApiProblem): FastifyReply {
  // Through `serializer`, since a route's own answer schema does not describe a problem.
  const isFhir = reply.request.url.startsWith(`${fhirBase}/`)
  return reply
    .code(problem.status)
    .type(isFhir ? fhirMediaType : problemMediaType)
    .serializer((value: unknown) => JSON.stringify(value))
    .send(isFhir ? outcomeOf(problem) : problem)
}
