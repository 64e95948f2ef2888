import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { v7 } from 'uuid'
import { captured } from '#cli/captured.suite.ts'
import { runMain } from '#cli/main.ts'
import type { Bodies, KindName } from '#road/kinds.ts'
import { instant } from '#road/instant.ts'
import { investigationSteps } from '#road/wounds/investigation/steps.ts'
import type { LookBack, Suspects } from '#service/api-types.ts'
import type { RunningService } from '../support/running-service.ts'
import { answerOf, caseId, keep, keepInfection, runWoundUnit, surgeon } from '../support/wound-store.ts'
import { present, record } from './hand.ts'

/*
 * A closed investigation says what was known when it was closed, whatever is recorded later about its wounds, its packs
 * and their loads, its operations and samples; and what came later stands beside it, apart, by API and command line.
 */

const opened = Date.parse(present)
const day = 86_400_000
const days = Array.from({ length: 20 }, (_, index) => 3 + index * 3)
const infected = [12, 18, 24, 30]
const investigation = 'investigation:one'
const address = `/api/wounds/suspects?permutations=999&investigation=${investigation}`
const ids = { load: v7(), inspection: v7(), closing: v7() }

let now = opened
let service: RunningService
let closed: Suspects

/** Records one entry of that day, and insists that it was kept. */
async function told<K extends KindName>(
  kind: K,
  clock: string,
  body: Bodies[K],
  sending: { readonly id?: string; readonly corrects?: string } = {},
): Promise<void> {
  const { status, body: answer } = await record(service, kind, clock, body, sending)
  assert.equal(status, 201, `${kind}: ${JSON.stringify(answer)}`)
}

const inspection = {
  round: 'round:one',
  cleanliness: 'clean',
  magnified: true,
  function: 'works',
  insulation: 'notInsulated',
  dry: true,
} as const

const load: Bodies['load-built'] = {
  load: 'load:one',
  machine: 'machine:s1',
  program: 'porous-134',
  purpose: 'goods',
  rounds: ['round:one'],
}

/** A set that went through one load, and was opened for the operation of twelve days ago. */
async function onePack(): Promise<void> {
  await told('device-registered', '06:00', {
    device: 'device:grasper',
    name: 'Grasper',
    contact: 'critical',
    steam: 'allowed',
    lumens: [],
    parts: 1,
    insulated: false,
    optic: false,
    singleUse: false,
  })
  await told('set-registered', '06:01', {
    set: 'set:lap-a',
    name: 'Laparoscopy A',
    countSheet: [{ device: 'device:grasper', count: 2 }],
  })
  for (const [machine, name] of [
    ['machine:s1', 'Steriliser 1'],
    ['machine:s2', 'Steriliser 2'],
  ] as const)
    // oxlint-disable-next-line no-await-in-loop
    await told('machine-registered', '06:02', {
      machine,
      name,
      type: 'steamSteriliser',
      airRemoval: 'dynamic',
      chamberLitres: 450,
      programs: ['porous-134'],
    })
  await told('use-ended', '06:10', { round: 'round:one', set: 'set:lap-a' })
  await told('inspected', '06:20', inspection, { id: ids.inspection })
  await told('load-built', '06:30', load, { id: ids.load })
  await told('pack-opened', '06:40', {
    round: 'round:one',
    case: caseId(12),
    outsideIndicator: 'changed',
    insideIndicator: 'changed',
    condition: 'intact',
  })
}

before(async () => {
  service = await runWoundUnit({ present, now: () => instant(now), days, infected })
  await onePack()
  await told('investigation-opened', '16:00', {
    investigation,
    because: 'worry',
    wounds: [],
    why: 'Four in one theatre',
    lead: surgeon.id,
  })
  await told('sample-taken', '16:10', {
    sample: 'sample:tap',
    place: 'aerator',
    where: 'Tap of theatre 2',
    lookingFor: 'anything',
    investigation,
  })
  for (const step of investigationSteps)
    // oxlint-disable-next-line no-await-in-loop
    await told('investigation-step-marked', '16:20', { investigation, step, state: 'notNeeded' })
  await told('investigation-closed', '16:30', ending, { id: ids.closing })
  closed = await answerOf<Suspects>(service, address)
  now += day
})

const ending = {
  investigation,
  conclusion: 'cannotTell',
  says: 'Chance is not ruled out.',
  changed: 'Nothing yet.',
} as const

after(async () => {
  await service.close()
})

async function byCommand(...args: readonly string[]) {
  const { io, out, err } = captured()
  const code = await runMain(['wounds', ...args, '--data', service.file], io)
  assert.equal(code, 0, err())
  return out()
}

const lookBack = () => answerOf<LookBack>(service, `/api/wounds/investigations/${investigation}`)
const asNow = () => answerOf<Suspects>(service, `${address}&asKnown=now`)

test('the pack that was opened is among what was met, and the answer says as of when it is', () => {
  assert.deepEqual(closed.span.of, { investigation, why: null, knownAt: '2026-06-10T16:30:00.000Z' })
  const met = closed.lines.find((line) => line.case === caseId(12))?.met ?? []
  for (const each of ['set set:lap-a', 'load load:one', 'steriliser machine:s1']) assert.ok(met.includes(each), each)
  assert.deepEqual([closed.ranking.infected, closed.ranking.cases], [4, 20])
})

test('while nothing came after it, nothing is said to have come', async () => {
  const { since } = await lookBack()
  assert.deepEqual(since, { closedAt: '2026-06-10T16:30:00.000Z', cases: [], samples: [], recalls: [] })
  assert.match(await byCommand('investigation', 'one'), /^since the closing\tnothing that changes the picture$/m)
  assert.deepEqual((await asNow()).lines, closed.lines)
})

interface Later {
  readonly name: string
  readonly enter: () => Promise<void>
  /** What the look-back says of it. */
  readonly since: Partial<NonNullable<LookBack['since']>>
  /** What the command line says of it. */
  readonly line: RegExp
  /** What is met now that was not met then, where anything is. */
  readonly met?: readonly [ReturnType<typeof caseId>, string]
}

const exposures = { case: caseId(12), what: ['exposures'] } as const
const wound = { case: caseId(15), what: ['wound'] } as const

/** Each on top of those before it. */
const later: readonly Later[] = [
  {
    name: 'a correction of an inspection',
    enter: () => told('inspected', '06:20', { ...inspection, magnified: false }, { corrects: ids.inspection }),
    since: { cases: [exposures] },
    line: /^since the closing\tcase:d12\tother exposures$/m,
    met: [caseId(12), 'condition notMagnified'],
  },
  {
    name: 'a correction of a load',
    enter: () => told('load-built', '06:30', { ...load, machine: 'machine:s2' }, { corrects: ids.load }),
    since: { cases: [exposures] },
    line: /^since the closing\tcase:d12\tother exposures$/m,
    met: [caseId(12), 'steriliser machine:s2'],
  },
  {
    name: 'a late wound',
    enter: () => keepInfection(service, opened, 15),
    since: { cases: [exposures, wound] },
    line: /^since the closing\tcase:d15\tother wound$/m,
  },
  {
    name: 'the result of a sample',
    enter: () =>
      told('sample-read', '17:00', {
        sample: 'sample:tap',
        culture: 'growth',
        acidFast: 'positive',
        organism: 'Mycobacterium chelonae',
        sameAsWounds: 'same',
      }),
    since: { samples: ['sample:tap'] },
    line: /^since the closing\tsample:tap\ttaken or read$/m,
  },
  {
    name: 'a recall of the load',
    enter: () =>
      told('recall-opened', '17:10', {
        recall: 'recall:one',
        load: 'load:one',
        why: 'A valve stuck',
        defectProven: true,
      }),
    since: { recalls: ['recall:one'] },
    line: /^since the closing\trecall:one\topened, and reaches packs of these operations$/m,
  },
]

for (const { name, enter, since, line, met } of later) {
  test(`${name} after the closing leaves the answer as it was, and is named beside it`, async () => {
    await enter()
    assert.deepEqual(await answerOf<Suspects>(service, address), closed)
    assert.partialDeepStrictEqual((await lookBack()).since, since)
    assert.match(await byCommand('investigation', 'one'), line)
    if (met === undefined) return
    const [id, what] = met
    const lineOf = ({ lines }: Suspects) => lines.find((each) => each.case === id)?.met ?? []
    assert.ok(lineOf(await asNow()).includes(what), what)
    assert.ok(!lineOf(closed).includes(what))
  })
}

test('what is known now is another comparison, which says so; the command line gives both', async () => {
  const { ranking, samples, span } = await asNow()
  assert.deepEqual([ranking.infected, span.of?.knownAt], [5, null])
  assert.deepEqual([samples[0]?.standing, closed.samples[0]?.standing], ['growth', 'waiting'])
  assert.match(
    await byCommand('suspects', '--investigation', 'one'),
    /\tas known when it was closed on 2026-06-10\t4 inf/,
  )
  const now = await byCommand('suspects', '--investigation', 'one', '--as-known', 'now')
  assert.match(now, /\tinvestigation:one\t5 infected of 20$/m)
})

test('what is stated of it later is not among what it said, and other words of its closing do not move its day', async () => {
  await told('hypothesis-stated', '17:20', { investigation, says: 'The tap after all', standing: 'dropped' })
  await told(
    'investigation-closed',
    '17:30',
    { ...ending, says: 'Chance is not ruled out yet.' },
    { corrects: ids.closing },
  )
  const { investigation: said } = await lookBack()
  assert.deepEqual([said.hypotheses, said.closed?.says], [[], 'Chance is not ruled out yet.'])
  assert.deepEqual((await answerOf<Suspects>(service, address)).lines, closed.lines)
})

test('bad input: an investigation that nobody opened, and a time of knowing that is none', async () => {
  assert.equal((await service.ask('GET', '/api/wounds/investigations/investigation:none')).status, 404)
  assert.equal((await service.ask('GET', '/api/wounds/investigations/case:d3')).status, 422)
  assert.equal((await service.ask('GET', `${address}&asKnown=then`)).status, 422)
  for (const [args, says] of [
    [
      ['investigation', 'none'],
      /^wounds investigation: wanted an investigation that is known, current value is "none"/,
    ],
    [['suspects', '--as-known', 'then'], /^--as-known: wanted closing or now, current value is "then"/],
  ] as const) {
    const { io, err } = captured()
    // oxlint-disable-next-line no-await-in-loop
    assert.equal(await runMain(['wounds', ...args, '--data', service.file], io), 2)
    assert.match(err(), says)
  }
})

test('while an investigation is open, nothing is set apart', async () => {
  await keep(service, 'investigation-opened', instant(now), {
    investigation: 'investigation:two',
    because: 'worry',
    wounds: [],
    why: 'Once more',
    lead: surgeon.id,
  })
  const open = await answerOf<LookBack>(service, '/api/wounds/investigations/investigation:two')
  assert.equal(open.since, null)
  assert.equal(open.investigation.opened?.why, 'Once more')
})
