import assert from 'node:assert/strict'
import { createHash } from 'node:crypto'
import { test } from 'node:test'
import { demoSeed } from '#demo/demo-stories.ts'
import { demoUnit } from '#demo/demo-unit.ts'
import { AttachmentDigest } from '#road/attachment.ts'
import { type SentEntry, SiteId } from '#road/entry.ts'
import { instant, type Instant, millis } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import { dayIn } from '#road/local-day.ts'
import { instanceOfDay } from '#road/planning/instance-of-day.ts'
import { policyFrom } from '#road/policy.ts'
import { dueTests, isPressing } from '#road/sterilising/due-tests.ts'
import { isProving } from '#road/sterilising/is-proving.ts'
import { qualificationOf } from '#road/sterilising/qualification-of.ts'
import { isSubjectOf, type SubjectId } from '#road/subject.ts'
import { readDay } from '#service/planning/read-day.ts'
import { planDay } from '#workings/planning/plan-day.ts'
import { MemoryRecord } from '../support/memory-record.ts'

/* The demonstration ends with its morning's work in order, and has something of every method to look at. */

const until = '2026-11-25T09:31:00.000Z' as Instant
const policy = policyFrom(undefined)
const record = new MemoryRecord()
const digest = (text: string) => AttachmentDigest.parse(createHash('sha256').update(text).digest('hex'))
const entries: SentEntry[] = []
for (const step of demoUnit({ seed: demoSeed, until, site: SiteId.parse('demo'), digest })) {
  if (step.kind === 'attachment') continue
  entries.push(step.entry)
  const made = Number.parseInt(step.entry.id.replaceAll('-', '').slice(0, 12), 16)
  // oxlint-disable-next-line no-await-in-loop: one entry after the other, as they were made
  await record.send(step.entry, instant(made))
}
const loadIds = [...record.everything().keys()].filter((id) => isSubjectOf('load', id))
const loads = [...(await record.known(loadIds)).values()]
const [unit] = await record.standing('unit', ['open'])
const dayOf = (at: Instant) => dayIn(unit?.timeZone ?? 'UTC', at)

async function machine(id: SubjectId<'machine'>): Promise<KnownOf<'machine'>> {
  const known = (await record.known([id])).get(id)
  assert.ok(known, id)
  return known
}

test('no test of a steriliser in service is overdue; the control of the indicator of today is all that is left', async () => {
  const open: string[] = []
  for (const id of ['machine:a', 'machine:g', 'machine:p'] as const) {
    // oxlint-disable-next-line no-await-in-loop
    const due = dueTests(
      await machine(id),
      loads.filter((load) => load.machine === id),
      { now: until, policy, dayOf },
    )
    open.push(...due.filter(isPressing).map((each) => `${id} ${each.test} ${each.state}`))
  }
  assert.deepEqual(open, ['machine:a control due'])
})

test('no set waits for its soak, none is damaged or rejected, and what is soaking came today', async () => {
  assert.deepEqual(await record.standing('round', ['used', 'sentBack', 'washed', 'damaged', 'rejected']), [])
  const soaking = await record.standing('round', ['soaking'])
  assert.ok(soaking.length > 0)
  for (const { soak } of soaking) assert.ok(millis(until) - millis(soak?.at ?? until) < 8 * 3_600_000)
})

test('the peroxide steriliser was proven before its first goods, and its packs are released', async () => {
  const id = 'machine:p'
  const own = loads.filter((load) => load.machine === id)
  const proof = qualificationOf(await machine(id), own.filter(isProving), { policy, now: until })
  assert.equal(proof?.state, 'qualified')
  const goods = own.filter((load) => load.purpose === 'goods')
  assert.ok(goods.length >= 5)
  for (const load of own) assert.equal(load.cycle?.report.verdict, 'met')
  const rounds = await record.known(goods.flatMap((load) => load.rounds))
  const waiting = [...rounds.values()].filter((round) => round.decision?.outcome !== 'released')
  assert.equal(waiting.length, 1, 'the pack of today waits for its indicator')
})

test('there is something of every method: gas residues, foil, air, lots, calibration, a loan, an allergy, a spill', () => {
  const count = (kind: string) => entries.filter((entry) => entry.kind === kind).length
  assert.equal(count('residue-tested'), 1)
  assert.equal(count('spill-recorded'), 1)
  assert.equal(count('loan-arrived'), 1)
  assert.equal(count('exposure-measured'), 8)
  assert.ok(count('foil-tested') >= 4)
  assert.ok(count('lot-opened') >= 5)
  assert.ok(count('machine-calibrated') >= 5)
  const bodies = JSON.stringify(entries.filter((entry) => entry.kind === 'case-booked').map((entry) => entry.body))
  assert.equal(bodies.split('"latex"').length - 1, 1)
  const baths = entries.filter((entry) => entry.kind === 'immersion-decided').map((entry) => JSON.stringify(entry.body))
  assert.ok(baths.filter((body) => body.includes('immersion:glut-')).length >= 30)
})

test('the strips of a bath that was discarded are used up, those of the baths in use are not', async () => {
  const bodiesOf = (kind: string) => entries.filter((entry) => entry.kind === kind).map((entry) => entry.body)
  const retired = bodiesOf('bath-retired').map((body) => (body as { bath: string }).bath.replace('bath:', ''))
  const usedUp = bodiesOf('lot-withdrawn')
    .map((body) => body as { lot: string; because: string })
    .filter(({ lot }) => lot.startsWith('lot:strips-'))
  assert.deepEqual(
    usedUp.map(({ lot, because }) => `${lot} ${because}`).toSorted(),
    retired.map((bath) => `lot:strips-${bath} usedUp`).toSorted(),
  )
  assert.ok(bodiesOf('strip-bottle-opened').length > usedUp.length)
})

test('the list three days ahead: a bath serves more cases than there are sets, and a telescope that bears no heat has two ways', async () => {
  const [booked] = [...(await record.known(['case:h-0001'])).values()]
  const day = dayOf(booked?.booked?.plannedAt ?? until)
  const { instance, findings } = instanceOfDay(await readDay(record, day, until))
  assert.ok(instance !== null)
  const typeOf = (name: string) => instance.setTypes.find(({ id }) => id === name) ?? assert.fail(name)
  const scope = typeOf('Hysteroscope')
  assert.deepEqual(scope.routes, ['Bath to disinfect, high level, Bath, Wash room, tray 1'])
  // Of the baths of two agents the one with the shorter contact: 12 min (CDC Guideline 2008, Table 4).
  assert.equal(instance.routes[scope.routes[0] ?? '']?.find(({ name }) => name === 'immerse')?.dur, 12)
  const video = typeOf('Video telescope')
  assert.deepEqual(video.routes, ['Hydrogen peroxide gas, Peroxide steriliser'])
  assert.deepEqual(video.otherRoutes, ['Ethylene oxide, Gas steriliser'])
  assert.ok(findings.some(({ says }) => /^Video telescope: another way is allowed. Ethylene oxide is open/.test(says)))
  const { schedule } = planDay(instance, { seed: 1, decodes: 400 })
  const unitsOf = (name: string) => schedule?.uses.flatMap(({ type, unit }) => (type === name ? [unit] : [])) ?? []
  assert.deepEqual(
    [unitsOf('Hysteroscope'), unitsOf('Video telescope')].map((units) => [units.length, new Set(units).size]),
    [
      [3, 2],
      [2, 1],
    ],
    'cases and sets',
  )
})
