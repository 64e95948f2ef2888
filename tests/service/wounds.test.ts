import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { captured } from '#cli/captured.suite.ts'
import { runMain } from '#cli/main.ts'
import { Instant } from '#road/instant.ts'
import type { CaseLine, ChartAnswer, ClustersAnswer, DueCall, RatesBy, Suspects } from '#service/api-types.ts'
import { clopperPearsonLimits } from '#workings/statistics/prop-ci-clopper-pearson.ts'
import type { Derived } from '#workings/derived.ts'
import type { RunningService } from '../support/running-service.ts'
import { answerOf, caseId, chartOfAll, keep, runWoundUnit } from '../support/wound-store.ts'
import { entryOf, present } from './hand.ts'

/** Twenty operations, every second to third day up to two months ago. */
const days = Array.from({ length: 20 }, (_, index) => 3 + index * 3)
const infected = [12, 18, 24, 30]
let service: RunningService

before(async () => {
  service = await runWoundUnit({ present, days, infected })
  await keep(service, 'chart-set', Instant.parse(present), chartOfAll)
})

after(async () => {
  await service.close()
})

const get = <T>(path: string): Promise<T> => answerOf<T>(service, path)

test('the line list has each operation once, the oldest first, with what became of its wound', async () => {
  const lines = await get<readonly CaseLine[]>('/api/wounds/lines?days=90')
  assert.deepEqual(
    lines.map((line) => line.case),
    days.toSorted((a, b) => b - a).map((each) => caseId(each)),
  )
  const ill = lines.filter((line) => line.infection !== null)
  assert.deepEqual(new Set(ill.map((line) => line.case)), new Set(infected.map((each) => caseId(each))))
  assert.ok(ill.every((line) => line.infection?.onsetDays === 3 && line.infection.counted))
  assert.equal((await get<readonly CaseLine[]>('/api/wounds/lines?days=10')).length, 3)
})

test('a call that reached nobody stays due, and one that was answered does not', async () => {
  const of = async (id: string) => (await get<readonly DueCall[]>('/api/wounds/calls')).filter((row) => row.case === id)
  const [before] = (await of(caseId(33))).filter(({ call }) => call.state !== 'later')
  assert.ok(before, 'a call of the operation 33 days ago is due')
  assert.equal(before.attempts, 0)
  const attempt = { case: caseId(33), means: 'phone' as const, alive: 'unknown' as const, signs: [] }
  await keep(service, 'follow-up-made', Instant.parse(present), { ...attempt, reached: 'nobody', wound: 'unknown' })
  const [tried] = (await of(caseId(33))).filter(({ call }) => call.day === before.call.day)
  assert.equal(tried?.attempts, 1)
  await keep(service, 'follow-up-made', Instant.parse(present), { ...attempt, reached: 'patient', wound: 'well' })
  assert.equal((await of(caseId(33))).filter(({ call }) => call.day === before.call.day).length, 0)
})

test('the rates count all operations, with the exact interval, and the groups add up to the whole', async () => {
  const rates = await get<RatesBy>('/api/wounds/rates?by=theatre&days=90')
  assert.deepEqual([rates.all.infections, rates.all.operations], [4, 20])
  // Clopper and Pearson 1934: 4 of 20 has the exact 95 % limits 5.7 % and 43.7 %.
  assert.deepEqual(
    rates.all.interval?.map((limit) => Number(limit.toFixed(3))),
    [0.057, 0.437],
  )
  assert.deepEqual(rates.all.interval, [...clopperPearsonLimits(4, 20, 0.95)])
  assert.deepEqual(
    rates.groups.map(({ group, rate }) => [group, rate.infections, rate.operations]),
    [
      ['Theatre 1', 0, 10],
      ['Theatre 2', 4, 10],
    ],
  )
})

test('the rates by risk index add up to the whole, and say what a long operation is and where that comes from', async () => {
  const rates = await get<RatesBy>('/api/wounds/rates?by=riskIndex&days=90')
  // No ASA is recorded in this unit: nothing is evaluable, and nothing passes for low.
  assert.deepEqual(
    rates.groups.map(({ group, rate }) => [group, rate.operations]),
    [['notEvaluable', 20]],
  )
  const cut = rates.cuts.find(({ procedure }) => procedure === 'cholecystectomy')
  assert.deepEqual([cut?.minutes, cut?.from, cut?.operations], [60, 'own', 20])
  const [line] = await get<readonly CaseLine[]>('/api/wounds/lines?days=90')
  assert.deepEqual(line?.riskIndex.missing, ['asa'])
  assert.deepEqual(line.preventionTold, { told: 0, asked: 8 })
  assert.equal(rates.preventionComplete, 0)
})

test('what all infected met and few others comes first among the suspects, as an association', async () => {
  const suspects = await get<Suspects>('/api/wounds/suspects?days=90&permutations=199')
  assert.equal(suspects.ranking.infected, 4)
  assert.equal(suspects.lines.length, 20)
  const theatre = suspects.ranking.ranked.find((row) => row.type === 'theatre' && row.casesExposed === 4)
  assert.ok(theatre, 'the theatre of all four is ranked')
  assert.deepEqual([theatre.nonCasesExposed, theatre.casesUnexposed, theatre.nonCasesUnexposed], [6, 0, 10])
  assert.doesNotMatch(JSON.stringify(suspects.ranking), /culprit/i)
})

test('a chart runs over the operations in their order and alarms at its limit', async () => {
  const { path, rate } = await get<ChartAnswer>('/api/wounds/charts/chart:all')
  assert.ok(path)
  assert.equal(path.points.length, 20)
  assert.equal(rate.infections, 4)
  const first = path.points.findIndex((point) => point.alarm)
  assert.ok(first > 0, 'four infections in seven operations alarm')
  assert.ok(path.points.slice(0, first).every((point) => point.value < path.design.limit))
  assert.equal(path.alarmSince, path.points[first]?.at)
})

/** Asks the working that a figure names, with the input that it names. */
async function again({ working, input }: Derived): Promise<unknown> {
  const { status, body } = await service.ask('POST', `/api/workings/${working}`, input)
  assert.equal(status, 200, `${working}: ${JSON.stringify(body)}`)
  return body
}

test('every figure of a rate and of a chart names the working and the input that give it again', async () => {
  const { path, gaps, rate } = await get<ChartAnswer>('/api/wounds/charts/chart:all')
  assert.ok(path && gaps?.why.g && gaps.why.t && rate.why)
  assert.deepEqual(await again(rate.why.interval), { value: rate.interval })
  assert.partialDeepStrictEqual(await again(rate.why.bounds), rate.bounds)
  const { limit, withoutRise, withRise } = path.design
  assert.partialDeepStrictEqual(await again(path.design.why), { h: limit, ARL0: withoutRise, ARL1: withRise })
  assert.deepEqual(await again(gaps.why.probability), { lower: gaps.lower, upper: gaps.upper })
  assert.deepEqual(await again(gaps.why.g), gaps.g)
  assert.deepEqual(await again(gaps.why.t), gaps.t)
  assert.equal(gaps.gaps.length, 3)
})

test('every odds ratio of a suspect names the tables that give it again, and every thing has a recall or a reason', async () => {
  const { ranking, recalls } = await get<Suspects>('/api/wounds/suspects?days=90&permutations=199')
  assert.ok(ranking.ranked.length >= 2)
  for (const row of ranking.ranked) {
    // oxlint-disable-next-line no-await-in-loop
    const found = await again(row.why)
    const wanted = { or_cmle: row.oddsRatio, p_greater: row.p, p_two_sided: row.pTwoSided, ci: row.oddsRatioLimits }
    for (const [field, value] of Object.entries(wanted)) {
      const told: unknown = Reflect.get(Object(found), field)
      const near = (a: unknown, b: unknown): boolean =>
        Array.isArray(a) && Array.isArray(b)
          ? a.every((each, index) => near(each, b[index]))
          : typeof a === 'number' && typeof b === 'number'
            ? Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(b))
            : a === b
      assert.ok(near(told, value), `${row.name} ${field}: ${JSON.stringify(told)}, ${JSON.stringify(value)}`)
    }
    const way = row.id === null ? undefined : recalls[`${row.type} ${row.id}`]
    if (row.id !== null) assert.ok(way !== undefined && (way.recalls.length > 0 || way.without !== null), row.name)
  }
})

test('samples stand beside the suspects whatever came of them, and one that nobody read is waiting', async () => {
  const at = Instant.parse(present)
  const take = (sample: `sample:${string}`, place: 'aerator' | 'sleeve', from?: `outlet:${string}`) =>
    keep(service, 'sample-taken', at, {
      sample,
      place,
      where: `${place} of the scrub sink`,
      lookingFor: 'mycobacteria',
      ...(from === undefined ? {} : { from }),
    })
  await keep(service, 'outlet-registered', at, {
    outlet: 'outlet:scrub',
    name: 'Scrub sink',
    use: 'finalRinse',
    treatment: 'none',
  })
  await take('sample:one', 'aerator', 'outlet:scrub')
  await take('sample:two', 'sleeve')
  await keep(service, 'sample-read', at, {
    sample: 'sample:one',
    culture: 'noGrowth',
    acidFast: 'negative',
    sameAsWounds: 'notCompared',
  })
  const { samples } = await get<Suspects>('/api/wounds/suspects?days=90&permutations=199')
  assert.deepEqual(
    samples
      .map(({ sample, place, from, standing }) => [sample, place, from, standing])
      .sort(([a = ''], [b = '']) => ((a ?? '') < (b ?? '') ? -1 : 1)),
    [
      ['sample:one', 'aerator', 'outlet:scrub', 'noGrowth'],
      ['sample:two', 'sleeve', null, 'waiting'],
    ],
  )
})

test('an alarm names the infections that made it', async () => {
  const { path } = await get<ChartAnswer>('/api/wounds/charts/chart:all')
  assert.deepEqual(
    path?.alarmRun.map((each) => each.wound),
    infected.toReversed().map((each) => `wound:d${each}`),
  )
})

test('the closest group in time is the four days of infections, and in place their theatre', async () => {
  const { inTime, inPlace, infections } = await get<ClustersAnswer>('/api/wounds/clusters?days=90')
  assert.equal(infections, 4)
  assert.ok(inTime !== null && inTime.infections === 4 && inTime.operations === 7, JSON.stringify(inTime))
  // Of the 4,845 ways to place four among twenty, 295 have them within seven in a row; tighter threes count as well.
  assert.ok(inTime.p > 295 / 4845 && inTime.p < 0.15, String(inTime.p))
  const theatre = inPlace.find(({ by }) => by === 'theatre')
  assert.ok(theatre !== undefined && theatre.infections === 4, JSON.stringify(theatre))
})

test('an investigation that names its wounds is about those infections only', async () => {
  const [line] = (await get<readonly CaseLine[]>('/api/wounds/lines?days=90')).filter((each) => each.infection !== null)
  assert.ok(line?.infection)
  await keep(service, 'investigation-opened', Instant.parse(present), {
    investigation: 'investigation:one',
    because: 'worry',
    wounds: [line.infection.wound],
    why: 'One wound alone',
    lead: line.surgeon,
  })
  const suspects = await get<Suspects>('/api/wounds/suspects?permutations=199&investigation=investigation:one')
  assert.deepEqual([suspects.ranking.infected, suspects.lines.length], [1, 17])
})

test('a wound that nobody judged by a criterion is refused without a reason, by the API and by the command line alike', async () => {
  await keep(service, 'wound-noted', Instant.parse(present), {
    wound: 'wound:bare',
    case: caseId(9),
    onsetAt: Instant.parse(present),
    depth: 'superficial',
    signs: 'A bruise',
    culture: 'notTaken',
    acidFast: 'notDone',
  })
  const judged = (why: { readonly why?: string }) =>
    entryOf('wound-judged', '17:00', {
      wound: 'wound:bare',
      outcome: 'notInfection',
      depth: 'superficial',
      criteria: [],
      eventAt: Instant.parse(present),
      ...why,
    })
  const refused = await service.ask('POST', '/api/entries', judged({}))
  assert.equal(refused.status, 409)
  assert.match(JSON.stringify(refused.body), /judged-with-reason.*Nothing is ticked and no reason is given/)
  const told = captured(
    `${JSON.stringify(judged({ why: '  ' }))}\n${JSON.stringify(judged({ why: 'A bruise only' }))}\n`,
  )
  assert.equal(await runMain(['record', '--data', service.file], told.io), 3, told.err())
  const [first, second] = told.out().trimEnd().split('\n')
  assert.match(first ?? '', /"outcome":"refused".*judged-with-reason/)
  assert.match(second ?? '', /"outcome":"kept"/)
})

const bad = [
  ['groups of too few days', '/api/wounds/clusters?days=3', 422],
  ['calls so far ahead', '/api/wounds/calls?aheadDays=61', 422],
  ['a list of no days', '/api/wounds/lines?days=0', 422],
  ['a group that is none', '/api/wounds/rates?by=patient', 422],
  ['days that are no number', '/api/wounds/rates?days=many', 422],
  ['too few permutations', '/api/wounds/suspects?permutations=9', 422],
  ['an unknown choice of infections', '/api/wounds/suspects?infections=mine', 422],
  ['an unknown parameter', '/api/wounds/lines?since=1', 422],
  ['a chart that is no chart', '/api/wounds/charts/case:d3', 422],
  ['a chart that nobody set up', '/api/wounds/charts/chart:none', 404],
] as const

for (const [name, path, wanted] of bad) {
  test(`bad input: ${name} is answered ${wanted} in words, with nothing written to the log`, async () => {
    const { status, type, body } = await service.ask('GET', path)
    assert.equal(status, wanted, JSON.stringify(body))
    assert.match(type, /problem\+json/)
    assert.deepEqual(service.log, [])
  })
}
