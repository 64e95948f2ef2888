import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { captured } from '#cli/captured.suite.ts'
import { runMain } from '#cli/main.ts'
import { Instant, instant } from '#road/instant.ts'
import { investigationSteps } from '#road/wounds/investigation/steps.ts'
import type { Suspects } from '#service/api-types.ts'
import type { RunningService } from '../support/running-service.ts'
import { answerOf, caseId, keep, keepInfection, keepOperation, runWoundUnit, surgeon } from '../support/wound-store.ts'
import { entryOf, present } from './hand.ts'

/*
 * An investigation is about certain days of operation, which its record fixes: the same question years later has the same
 * answer, from the API and from the command line, whatever was operated on, limited or judged since.
 */

const opened = Date.parse(present)
const day = 86_400_000
const days = Array.from({ length: 20 }, (_, index) => 3 + index * 3)
const investigation = 'investigation:one'
const address = `/api/wounds/suspects?permutations=9999&investigation=${investigation}`

let now = opened
let service: RunningService

before(async () => {
  service = await runWoundUnit({ present, now: () => instant(now), days, infected: [12, 18, 24, 30] })
  await keep(service, 'investigation-opened', Instant.parse(present), {
    investigation,
    because: 'worry',
    wounds: [],
    why: 'Four in one theatre',
    lead: surgeon.id,
  })
})

after(async () => {
  await service.close()
})

async function byCommand(...args: readonly string[]) {
  const told = captured()
  const code = await runMain(['wounds', 'suspects', ...args, '--data', service.file], told.io)
  return { code, out: told.out(), err: told.err() }
}

/** All but the names, which are read from the unit as it is now. */
const answerAlone = ({ ranking, span, lines, samples }: Suspects) => ({ ranking, span, lines, samples })

test('without any days said, it covers the year before the day on which it was opened', async () => {
  const { span, ranking } = await answerOf<Suspects>(service, address)
  assert.deepEqual(span, {
    from: '2025-06-10',
    to: '2026-06-10',
    of: { investigation, why: null, knownAt: null },
    wounds: [],
  })
  assert.deepEqual([ranking.infected, ranking.cases], [4, 20])
})

test('four years later, with new infections and another limit, the answer is the same to the last figure', async () => {
  const first = answerAlone(await answerOf<Suspects>(service, address))
  now = opened + 4 * 365 * day
  for (const later of [5, 4, 1]) {
    // oxlint-disable-next-line no-await-in-loop: in the order of the days
    await keepOperation(service, now, later)
    if (later !== 4) continue
    // oxlint-disable-next-line no-await-in-loop: in the order of the days
    await keepInfection(service, now, later)
  }
  await keep(service, 'limit-changed', instant(now), {
    policy: 'policy:unit',
    limit: 'long-operation-minutes',
    value: 30,
    reason: 'Shorter operations now',
  })
  assert.deepEqual(answerAlone(await answerOf<Suspects>(service, address)), first)
  const told = await byCommand('--investigation', 'one', '--json')
  assert.equal(told.code, 0, told.err)
  assert.deepEqual(answerAlone(JSON.parse(told.out) as Suspects), JSON.parse(JSON.stringify(first)))
  const moving = await answerOf<Suspects>(service, '/api/wounds/suspects?permutations=99&days=365')
  assert.ok(moving.lines.every((line) => !first.lines.some((each) => each.case === line.case)))
})

test('the days are set anew with a reason, which stands beside the answer; days that run backwards are refused', async () => {
  const from = '2026-05-01'
  const set = (body: { readonly from: string; readonly to: string }) =>
    service.ask('POST', '/api/entries', {
      ...entryOf('investigation-window-set', '17:30', { investigation, why: 'Theatre 2 opened in May', ...body }),
    })
  assert.equal((await set({ from, to: '2026-04-01' })).status, 409)
  assert.equal((await set({ from, to: '2026-06-10' })).status, 201)
  const { span, lines } = await answerOf<Suspects>(service, address)
  assert.deepEqual([span.from, span.to, span.of?.why], [from, '2026-06-10', 'Theatre 2 opened in May'])
  assert.equal(lines.length, days.filter((each) => new Date(opened - each * day).toISOString() >= from).length)
  const told = await byCommand('--investigation', investigation)
  assert.match(
    told.out,
    /^operations\t2026-05-01 to 2026-06-10\tinvestigation:one\tdays set: Theatre 2 opened in May\t/,
  )
})

test('a wound that is judged while it is open joins; once it is closed, what is judged anew does not', async () => {
  const before = await answerOf<Suspects>(service, address)
  await keepInfection(service, opened, 15)
  const joined = await answerOf<Suspects>(service, address)
  assert.equal(joined.ranking.infected, before.ranking.infected + 1)
  for (const step of investigationSteps)
    // oxlint-disable-next-line no-await-in-loop
    await keep(service, 'investigation-step-marked', instant(now), { investigation, step, state: 'notNeeded' })
  await keep(service, 'investigation-closed', instant(now), {
    investigation,
    conclusion: 'cannotTell',
    says: 'Chance is not ruled out.',
    changed: 'Nothing yet.',
  })
  const closed = answerAlone(await answerOf<Suspects>(service, address))
  const { ranking, lines, samples } = joined
  assert.partialDeepStrictEqual(closed, { ranking, lines, samples })
  now += day
  await keep(service, 'wound-judged', instant(now), {
    wound: 'wound:d15',
    outcome: 'notInfection',
    depth: 'superficial',
    criteria: [],
    eventAt: instant(now),
    why: 'It was a bruise after all',
  })
  await keepInfection(service, opened, 21)
  assert.deepEqual(answerAlone(await answerOf<Suspects>(service, address)), closed)
  const set = { investigation, from: '2026-01-01', to: '2026-06-10', why: 'Once more' } as const
  const refused = await service.ask('POST', '/api/entries', entryOf('investigation-window-set', '17:30', set))
  assert.equal(refused.status, 409)
  assert.match(JSON.stringify(refused.body), /This investigation is closed/)
})

test('the command line takes the infections that the API takes, and shows what it compared', async () => {
  const all = await byCommand('--days', '3650', '--infections', 'counted')
  assert.equal(all.code, 0, all.err)
  assert.match(all.out, /^operations\t20\d\d-\d\d-\d\d to 20\d\d-\d\d-\d\d\t\d+ infected of \d+$/m)
  const late = await byCommand('--days', '3650', '--infections', 'late', '--json')
  assert.equal((JSON.parse(late.out) as Suspects).ranking.infected, 0)
  assert.deepEqual((JSON.parse(late.out) as Suspects).asked, { infections: 'late', permutations: 9999 })
})

const wrong = [
  [['--infections', 'mine'], /^--infections: wanted one of all, counted, late, acidFast, current value is "mine"/],
  [['--investigation', 'none'], /^--investigation: wanted an investigation that is known, current value is "none"/],
  [['--investigation', 'case:d3'], /^--investigation: wanted an investigation that is known/],
  [['--investigation', 'one', '--days', '9'], /^--days: wanted none beside --investigation/],
] as const

for (const [args, says] of wrong) {
  test(`bad input: ${args.join(' ')} is one clear line and the usage`, async () => {
    const told = await byCommand(...args)
    assert.deepEqual([told.code, told.out], [2, ''])
    assert.match(told.err, says)
    assert.match(told.err, /Usage: nilgrowth wounds/)
  })
}

test('bad input: days beside an investigation, and an investigation that nobody opened', async () => {
  const both = await service.ask('GET', `${address}&days=90`)
  assert.equal(both.status, 422)
  assert.match(JSON.stringify(both.body), /no days beside an investigation/)
  assert.equal((await service.ask('GET', '/api/wounds/suspects?investigation=investigation:none')).status, 404)
  assert.equal(
    (await answerOf<readonly { case: string }[]>(service, '/api/wounds/lines?days=4000')).at(-1)?.case,
    caseId(1),
  )
})
