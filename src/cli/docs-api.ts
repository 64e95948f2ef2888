import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { z } from 'zod'
import { invariant } from '#units/invariant.ts'
import { readConfig } from '#service/config.ts'
import { openService } from '#service/open-service.ts'

const Document = z.object({
  paths: z.record(z.string(), z.record(z.string(), z.object({ summary: z.string() }))),
})

/** The OpenAPI document as the service gives it, and a page that lists its routes. */
export async function apiPages(): Promise<ReadonlyMap<string, string>> {
  const document = await askForDocument()
  const rows = Object.entries(Document.parse(document).paths).flatMap(([path, operations]) =>
    Object.entries(operations).map(([method, { summary }]) => `| ${method.toUpperCase()} | \`${path}\` | ${summary} |`),
  )
  return new Map([
    ['openapi.json', `${JSON.stringify(document, null, 1)}\n`],
    [
      'README.md',
      [
        '<!-- Made by `nilgrowth docs` from the routes. Change the route, not this page. -->',
        '# HTTP API',
        'Described in full by [openapi.json](openapi.json) (OpenAPI 3.1), which the running service gives at `/openapi.json`. ' +
          'Errors are problem details (RFC 9457) that name what was wanted, what came and what to do; a refused decision ' +
          'carries its findings.',
        ['| method | address | what |', '|---|---|---|', ...rows].join('\n'),
        '',
      ].join('\n\n'),
    ],
  ])
}

async function askForDocument(): Promise<unknown> {
  const folder = await mkdtemp(join(tmpdir(), 'nilgrowth-docs-'))
  const read = readConfig({ NILGROWTH_DATA: join(folder, 'empty.sqlite'), PORT: '0', NILGROWTH_SIGN_IN: 'open' })
  invariant(read.kind === 'config', 'the configuration of an empty store is sound')
  try {
    await using service = await openService({ config: read.config, demo: null, screens: null })
    return await (await fetch(`${service.url}/openapi.json`)).json()
  } finally {
    await rm(folder, { recursive: true })
  }
}
