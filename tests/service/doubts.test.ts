import assert from 'node:assert/strict'
import { test } from 'node:test'
import { runMain } from '#cli/main.ts'
import type { SentEntry, SiteId } from '#road/entry.ts'
import type { TypedKept } from '#road/kinds.ts'
import { Instant } from '#road/instant.ts'
import type { KnownPage, KnownRow } from '#service/api-types.ts'
import { BathUnit } from '../support/bath-unit.ts'
import { RoadUnit } from '../support/road-unit.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { openUnit } from './hand.ts'

/* A pack is released and stored; then its cycle is corrected to not met. Every list says that the pack is in doubt, and why. */

async function releasedPack(): Promise<readonly TypedKept[]> {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const round = await unit.pack('a')
  const load = await unit.load('one', [round])
  assert.equal((await unit.release(load, [round])).kept, true)
  await unit.say('pack-stored', { round, place: 'shelf' })
  const logged = unit.record.entries.findLast((entry) => entry.kind === 'cycle-logged')
  assert.ok(logged?.kind === 'cycle-logged')
  const report = { ...logged.body.report, verdict: 'notMet' as const }
  await unit.say('cycle-logged', { ...logged.body, report }, { corrects: logged.id })
  return unit.record.entries
}

/** Straight into the record: the story is of what is known of it, and its cycle has a verdict without a log. */
async function keep(service: RunningService, entry: TypedKept): Promise<void> {
  const { id, kind, happenedAt, by, workstation, body, corrects } = entry
  const site = 'unit' as SiteId
  const sent = { id, site, kind, happenedAt, by, workstation, body: body as SentEntry['body'] }
  const outcome = await service.journal.append({
    ...sent,
    ...(corrects === undefined ? {} : { corrects }),
  })
  assert.equal(outcome.kind, 'kept', `${kind}: ${JSON.stringify(outcome)}`)
}

async function known(file: string, round: string): Promise<string> {
  let out = ''
  const stdin = (async function* () {
    yield ''
  })()
  const io = {
    stdin,
    stdout: { write: (text: string) => (out += text) },
    stderr: { write: (text: string) => (out += text) },
  }
  assert.equal(await runMain(['known', round, '--data', file], io), 0, out)
  return out
}

test('a released pack whose cycle is corrected to not met is in doubt: in lists, by itself and on the command line', async () => {
  const entries = await releasedPack()
  const present = Instant.parse(new Date(Date.parse(entries.at(-1)?.happenedAt ?? '') + 60_000).toISOString())
  await using service = await runService({ now: () => present })
  await openUnit(service)
  const row = async () => (await service.ask('GET', '/api/known/round:a')).body as KnownRow<'round'>
  for (const entry of entries.slice(0, -1)) {
    // oxlint-disable-next-line no-await-in-loop: one step after the other
    await keep(service, entry)
  }
  assert.equal((await row()).standing, 'onShelf')
  assert.equal('doubts' in (await row()), false)
  assert.doesNotMatch(await known(service.file, 'round:a'), /DOUBT/)
  for (const entry of entries.slice(-1)) await keep(service, entry)
  const { doubts = [] } = await row()
  assert.deepEqual(
    doubts.map(({ rule }) => rule),
    ['released-still-proven'],
  )
  assert.match(
    doubts[0]?.says ?? '',
    /^a \(a\) was released, but what released it does not stand any more\. Do not use it\. ./,
  )
  const page = (await service.ask('GET', '/api/known?kind=round&standing=onShelf')).body as KnownPage<'round'>
  assert.deepEqual(page.rows[0]?.doubts, doubts)
  assert.match(await known(service.file, 'round:a'), /^round:a\tonShelf\t.*\tIN DOUBT: a \(a\) was released, but/)
})

test('a set that was used after a bath is in doubt once its strip is corrected to failed: with its bath, by itself and on the command line', async () => {
  const bath = await BathUnit.open()
  const round = await bath.ready('scope')
  await bath.use(round)
  await bath.correct('strip-read', { result: 'fail' })
  const entries = bath.unit.record.entries
  const present = Instant.parse(new Date(Date.parse(bath.unit.now) + 60_000).toISOString())
  await using service = await runService({ now: () => present })
  await openUnit(service)
  const doubtsOf = async (subject: string) =>
    ((await service.ask('GET', `/api/known/${subject}`)).body as KnownRow).doubts ?? []
  for (const entry of entries.slice(0, -1)) {
    // oxlint-disable-next-line no-await-in-loop: one step after the other
    await keep(service, entry)
  }
  assert.deepEqual(await doubtsOf('bath:b'), [])
  assert.deepEqual(await doubtsOf(round), [])
  for (const entry of entries.slice(-1)) await keep(service, entry)
  const [doubt, ...others] = await doubtsOf('bath:b')
  assert.deepEqual([doubt?.rule, others], ['treated-still-proven', []])
  assert.match(doubt?.says ?? '', /^scope \(scope\): its bath does not prove it ready .* open the recall of bath b\./)
  assert.deepEqual(await doubtsOf(round), [doubt])
  assert.deepEqual(await doubtsOf('immersion:scope'), [doubt])
  const page = (await service.ask('GET', '/api/known?kind=bath&standing=failedStrip')).body as KnownPage<'bath'>
  assert.deepEqual(page.rows[0]?.doubts, [doubt])
  assert.match(await known(service.file, 'bath:b'), /IN DOUBT: scope \(scope\): its bath/)
})
