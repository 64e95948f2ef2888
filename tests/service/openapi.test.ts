import assert from 'node:assert/strict'
import { test } from 'node:test'
import { runService } from '../support/running-service.ts'

interface Operation {
  readonly summary?: string
  readonly tags?: readonly string[]
  readonly requestBody?: { readonly content: Record<string, { readonly schema: Record<string, unknown> }> }
  readonly responses: Record<string, { readonly description: string; readonly content?: Record<string, unknown> }>
}

/** Every route that the brief of the service names; a new one is added here and in the document by itself. */
const routes = [
  'get /api/unit',
  'post /api/unit',
  'get /api/health',
  'get /api/group',
  'get /api/ready',
  'get /api/metrics',
  'get /api/seals',
  'post /api/seals',
  'post /api/seals/check',
  'get /api/backups',
  'post /api/backups',
  'post /api/entries',
  'post /api/entries/judge',
  'get /api/entries',
  'get /api/entries/{id}',
  'get /api/known',
  'get /api/known/{subject}',
  'get /api/find',
  'get /api/scan',
  'get /api/label-printer',
  'get /api/rounds/{round}/label',
  'post /api/rounds/{round}/label/print',
  'get /api/machines/{machine}/loads',
  'get /api/machines/{machine}/connection',
  'put /api/machines/{machine}/connection',
  'get /api/machines/{machine}/arrivals',
  'get /api/machines/{machine}/running',
  'post /api/machines/{machine}/practice',
  'get /api/trace/{subject}',
  'get /api/recalls',
  'get /api/recalls/{recall}',
  'put /api/attachments',
  'get /api/access',
  'get /api/accounts',
  'get /api/devices',
  'get /api/me',
  'get /api/cases/{case}/identity',
  'put /api/cases/{case}/identity',
  'post /api/cases/{case}/identity/see',
  'post /api/cases/{case}/identity/erase',
  'post /api/identities/search',
  'get /api/identities/log',
  'post /api/passkeys/challenge',
  'get /api/me/passkeys',
  'post /api/me/passkeys/challenge',
  'post /api/me/passkeys',
  'delete /api/me/passkeys/{id}',
  'get /api/me/sessions',
  'post /api/me/sessions/end',
  'post /api/accounts/{person}/code',
  'post /api/accounts/{person}/close',
  'post /api/devices',
  'post /api/devices/{id}/end',
  'post /api/sign-in',
  'post /api/sign-out',
  'post /api/me/active',
  'post /api/me/secrets',
  'post /api/signatures',
  'get /api/attachments/{digest}',
  'post /api/cycle-logs/read',
  'get /api/loads/{load}/chart',
  'post /api/loads/{load}/cycle',
  'get /api/webhooks',
  'post /api/webhooks',
  'post /api/webhooks/{id}/end',
  'post /api/webhooks/{id}/resume',
  'post /api/webhooks/{id}/test',
  'get /api/fhir',
  'get /api/tables',
  'get /api/tables/{name}',
  'get /api/list-import/mapping',
  'put /api/list-import/mapping',
  'post /api/list-import/preview',
  'post /api/list-import',
  'get /api/loads/{load}/record.pdf',
  'get /api/recalls/{recall}/notice.pdf',
  'get /api/devices/{device}/step-card.pdf',
  'get /api/months/{month}/report.pdf',
  'get /api/plan/{day}',
  'post /api/plan/{day}',
  'post /api/plan/{day}/simulate',
  'get /api/policy',
  'get /api/rules',
  'get /api/kinds',
  'get /api/workings',
  'get /api/workings/{id}',
  'get /api/wounds/calls',
  'get /api/wounds/charts/{chart}',
  'get /api/wounds/clusters',
  'get /api/wounds/investigations/{investigation}',
  'get /api/wounds/lines',
  'get /api/wounds/rates',
  'get /api/wounds/suspects',
  'post /api/workings/{id}',
  'get /api/decide',
  'post /api/decide',
  'get /api/live',
]

test('/openapi.json is OpenAPI 3.1, covers every route, and each route says what it does and how it fails', async () => {
  await using service = await runService()
  const answer = await service.ask('GET', '/openapi.json')
  assert.equal(answer.status, 200)
  const document = answer.body as {
    openapi: string
    info: { title: string; version: string }
    paths: Record<string, Record<string, Operation>>
  }
  assert.match(document.openapi, /^3\.1\.\d+$/)
  assert.ok(document.info.title && document.info.version)
  const operations = Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => [`${method} ${path}`, operation] as const),
  )
  assert.deepEqual(operations.map(([name]) => name).toSorted(), routes.toSorted())
  for (const [name, { summary, tags, responses, requestBody }] of operations) {
    assert.ok(summary && summary.length > 5, `${name} has a summary`)
    assert.equal(tags?.length, 1, `${name} has a tag`)
    assert.ok(
      Object.keys(responses).some((status) => status.startsWith('2')),
      `${name} has a good answer`,
    )
    for (const [status, response] of Object.entries(responses)) {
      assert.ok(response.description, `${name} ${status} is described`)
      if (Number(status) >= 400)
        assert.deepEqual(Object.keys(response.content ?? {}), ['application/problem+json'], `${name} ${status}`)
    }
    assert.ok('500' in responses, `${name} may fail`)
    if (requestBody !== undefined) assert.ok('413' in responses && '415' in responses, `${name} takes a body`)
    for (const { schema } of Object.values(requestBody?.content ?? {}))
      assert.ok(Object.keys(schema).length > 0, `${name} describes its body`)
  }
})

test('/openapi.json holds no reference that leads nowhere, and gives subjects and numbers their form', async () => {
  await using service = await runService()
  const { body } = await service.ask('GET', '/openapi.json')
  const text = JSON.stringify(body)
  assert.doesNotMatch(text, /"\$ref"|"\$defs"|"\$schema"/)
  assert.match(text, /\^\(\?:machine\):/)
  const known = (body as { paths: Record<string, { get: { parameters: { name: string; schema: object }[] } }> }).paths[
    '/api/known'
  ]
  const limit = known?.get.parameters.find((parameter) => parameter.name === 'limit')
  assert.deepEqual(limit?.schema, { type: 'integer', minimum: 1, maximum: 1000 })
})
