import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import type { AddRoutes } from '../app-type.ts'
import { capabilityOf, fhirBase, fhirMediaType, searchBundle } from '../fhir/around.ts'
import { fhirForms, fhirText } from '../fhir/export-fhir.ts'
import { fhirPage, readFhir } from '../fhir/fhir-walk.ts'
import { fhirTypes } from '../fhir/resource.ts'
import { readSearch } from '../fhir/search.ts'
import { sendProblem } from '../problem-reply.ts'
import { notFound, unusableInput } from '../problems.ts'
import { rawAnswer } from '../schemas/answers.ts'
import { sendPieces } from '../send-pieces.ts'
import { checkBySchema } from '../validation.ts'

const FhirTypeInput = z.enum(fhirTypes)

/** The record in HL7 FHIR R4, to be read: whole, one by one, or by a search. */
export const addFhirRoutes: AddRoutes = (app, { reader, site, now, version }) => {
  app.get(
    '/api/fhir',
    {
      schema: {
        tags: ['fhir'],
        summary: 'The record in HL7 FHIR R4: a Bundle, or a resource a line',
        description: 'Single resources and searches are at /fhir/R4, which /fhir/R4/metadata describes.',
        querystring: z.strictObject({ as: z.enum(fhirForms).default('bundle'), type: FhirTypeInput.optional() }),
        response: rawAnswer('The resources', 'application/fhir+json', 422),
      },
    },
    async (request, reply) => {
      const { as, type } = request.query
      const [ending, media] = as === 'bundle' ? ['json', fhirMediaType] : ['ndjson', 'application/fhir+ndjson']
      reply
        .type(media)
        .header('content-disposition', `attachment; filename="${site}-fhir-${now().slice(0, 10)}.${ending}"`)
      const asked = { base: baseOf(request), now: now(), ...(type === undefined ? {} : { types: [type] }) }
      return await sendPieces(reply, fhirText(reader, as, asked))
    },
  )

  // Described by their CapabilityStatement, in the words of FHIR, and not once more in OpenAPI.
  const hidden = { schema: { hide: true }, validatorCompiler: checkBySchema }
  app.get(`${fhirBase}/metadata`, hidden, async (request, reply) =>
    sendFhir(reply, capabilityOf(version, baseOf(request), now())),
  )

  app.get(`${fhirBase}/:type`, hidden, async (request, reply) => {
    const type = FhirTypeInput.safeParse(partOf(request, 'type'))
    if (!type.success) return noType(reply, partOf(request, 'type'))
    const asked = readSearch(type.data, request.query)
    if (typeof asked === 'string') {
      const [field = 'query', says = asked] = asked.split(': wanted ', 2)
      const [wanted = says, current = 'another'] = says.split(', current value is ', 2)
      return sendProblem(reply, unusableInput([{ field, wanted, current }]))
    }
    const base = baseOf(request)
    const self = `${base}${request.url.slice(fhirBase.length)}`
    if (asked.id !== undefined) {
      const found = await readFhir(reader, type.data, asked.id)
      const resources = found !== undefined && asked.fits(found) ? [found] : []
      return sendFhir(reply, searchBundle(base, { resources, self, next: null }))
    }
    const { resources, next } = await fhirPage(reader, type.data, asked)
    return sendFhir(reply, searchBundle(base, { resources, self, next: next === null ? null : nextOf(self, next) }))
  })

  app.get(`${fhirBase}/:type/:id`, hidden, async (request, reply) => {
    const type = FhirTypeInput.safeParse(partOf(request, 'type'))
    if (!type.success) return noType(reply, partOf(request, 'type'))
    const found = await readFhir(reader, type.data, partOf(request, 'id'))
    if (found === undefined)
      return sendProblem(reply, notFound('id', `the id of a ${type.data} on record`, partOf(request, 'id')))
    return sendFhir(reply.header('last-modified', new Date(found.meta.lastUpdated).toUTCString()), found)
  })
}

function noType(reply: FastifyReply, came: string): FastifyReply {
  return sendProblem(reply, notFound('type', `one of ${fhirTypes.join(', ')}`, came))
}

function partOf({ params }: FastifyRequest, name: string): string {
  const part: unknown = typeof params === 'object' && params !== null ? Reflect.get(params, name) : undefined
  return typeof part === 'string' ? part : ''
}

function baseOf(request: FastifyRequest): string {
  return `${request.protocol}://${request.host}${fhirBase}`
}

/** The same search from another place on. */
function nextOf(self: string, cursor: string): string {
  const url = new URL(self)
  url.searchParams.set('_cursor', cursor)
  return url.toString()
}

function sendFhir(reply: FastifyReply, resource: object): FastifyReply {
  return reply
    .type(fhirMediaType)
    .serializer((value: unknown) => JSON.stringify(value))
    .send(resource)
}
