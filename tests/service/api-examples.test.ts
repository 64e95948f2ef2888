import assert from 'node:assert/strict'
import { execFile, spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { after, before, test } from 'node:test'
import { promisify } from 'node:util'
import { instant } from '#road/instant.ts'
import { tables } from '#service/tables/tables.ts'
import type { EntriesPage } from '#service/api-types.ts'
import { SignedUnit, passphraseOf } from '../support/signed-unit.ts'
import { sqliteService } from '../support/service-engines.ts'

/* The examples of docs/how-to/use-the-api.md, run as they stand there against a real service with sign-in. */

const page = readFileSync(new URL('../../docs/how-to/use-the-api.md', import.meta.url), 'utf8')

function exampleIn(language: string): string {
  const found = [...page.matchAll(/^```(\w+)\n([\s\S]*?)^```$/gm)].filter(([, name]) => name === language)
  assert.equal(found.length, 1, `one example in ${language}`)
  return found[0]?.[2] ?? ''
}

const run = promisify(execFile)
const heading = (tables.find(({ name }) => name === 'entries')?.columns ?? []).map(({ name }) => name).join(',')

let unit: SignedUnit
before(async () => {
  unit = await SignedUnit.open(sqliteService)
  // The examples have the clock of the computer.
  unit.pass((Date.now() - Date.parse(unit.now())) / 60_000)
  await unit.signIn(unit.manager, 'Mira')
  await unit.person('Sensor', ['reprocessing'])
})
after(() => unit[Symbol.asyncDispose]())

for (const [language, command, args] of [
  ['bash', 'bash', (text: string) => ['-c', text]],
  ['js', process.execPath, (text: string) => ['--input-type=module', '--eval', text]],
  ['python', 'python3', (text: string) => ['-c', text]],
] as const) {
  const needed = language === 'bash' ? ['bash', 'curl'] : [command]
  const missing = needed.filter((each) => spawnSync(each, ['--version']).error !== undefined)
  const skip = missing.length > 0 && `${missing.join(', ')} is not on this computer`
  test(`the example in ${language} signs in, records a reading once, and reads a table`, { skip }, async () => {
    const since = instant(Date.now() - 60_000)
    const { PATH = '', HOME = '' } = process.env
    const env = { PATH, HOME, NILGROWTH: unit.service.url, NAME: 'Sensor', PASSPHRASE: passphraseOf('Sensor') }
    const { stdout } = await run(command, args(exampleIn(language)), { env, timeout: 60_000 })
    assert.deepEqual(stdout.trim().split(/\r?\n/), ['201', '200', heading])
    const { entries } = (await unit.manager.ask('GET', '/api/entries?limit=1000')).body as EntriesPage
    const last = entries.at(-1)
    assert.deepEqual([last?.kind, last?.by], ['storage-measured', 'person:sensor'])
    assert.ok((last?.happenedAt ?? '') >= since)
  })
}
