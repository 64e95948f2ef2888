import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { captured } from '#cli/captured.suite.ts'
import { runMain } from '#cli/main.ts'
import { Instant, instant } from '#road/instant.ts'
import { EntryId } from '#road/entry.ts'
import { investigationSteps } from '#road/wounds/investigation/steps.ts'
import type { ChartAnswer, ClustersAnswer, RatesBy } from '#service/api-types.ts'
import type { RunningService } from '../support/running-service.ts'
import { answerOf, caseId, chartOfAll, keep, runWoundUnit, surgeon } from '../support/wound-store.ts'
import { entryOf, present } from './hand.ts'

/*
 * What the screens show of wounds, by the command line on the same record: groups, rates, lines, and a chart that was
 * restarted with a reason. The clock of the command is that of the machine, so it looks back for long enough.
 */

const days = Array.from({ length: 20 }, (_, index) => 3 + index * 3)
const long = ['--days', '4000']
let service: RunningService

before(async () => {
  service = await runWoundUnit({ present, days, infected: [12, 18, 24, 30] })
  await keep(service, 'chart-set', Instant.parse(present), { ...chartOfAll, headStart: false })
})

after(async () => {
  await service.close()
})

async function told(...args: readonly string[]): Promise<string> {
  const { io, out, err } = captured()
  assert.equal(await runMain(['wounds', ...args, '--data', service.file], io), 0, err())
  return out()
}

test('groups in time and place are the same by the command line and by the API', async () => {
  const { inTime, inPlace } = await answerOf<ClustersAnswer>(service, '/api/wounds/clusters?days=365')
  const found = JSON.parse(await told('clusters', ...long, '--json')) as ClustersAnswer
  assert.deepEqual(found.inTime, inTime)
  assert.deepEqual(found.inPlace, inPlace)
  assert.match(await told('clusters', ...long), /^theatre\tTheatre 2\t.*\tby chance 0\.\d+$/m)
})

test('rates and lines are the same by the command line and by the API', async () => {
  const { all } = await answerOf<RatesBy>(service, '/api/wounds/rates?by=theatre&days=365')
  const rates = JSON.parse(await told('rates', '--by', 'theatre', ...long, '--json')) as RatesBy
  assert.deepEqual([rates.all.infections, rates.all.operations, rates.all.interval], [4, 20, all.interval])
  const lines = (await told('lines', ...long)).trimEnd().split('\n')
  assert.equal(lines.length, days.length)
  assert.match(lines.find((line) => line.includes(caseId(12))) ?? '', /superficial day 3$/)
})

test('a chart in alarm is restarted only with a reason, which stands on it; the infections after it count anew', async () => {
  const alarmed = await answerOf<ChartAnswer>(service, '/api/wounds/charts/chart:all')
  assert.notEqual(alarmed.path?.alarmSince, null)
  const restart = (why: string) =>
    service.ask('POST', '/api/entries', entryOf('chart-restarted', '17:00', { chart: 'chart:all', why }))
  assert.equal((await restart('')).status, 422)
  assert.equal((await restart('Theatre 2 was put right')).status, 201)
  const { path } = await answerOf<ChartAnswer>(service, '/api/wounds/charts/chart:all')
  assert.equal(path?.alarmSince, null)
  assert.deepEqual(path?.alarms, alarmed.path?.alarms, 'the alarm stays in the record')
  const text = await told('chart', 'all')
  assert.match(text, /^restarted\t2026-06-10\tperson:ada\tTheatre 2 was put right$/m)
  assert.match(text, /^in words\tone false alarm in about 1(\.\d)? years at 120 operations a year$/m)
})

test('a reoperation and a death are kept with the wound, and the death says whether the infection had to do with it', async () => {
  const wound = 'wound:d12'
  const at = instant(Date.parse(present))
  await keep(service, 'wound-treated', at, { wound, what: 'reoperation', note: 'Washed out' })
  await keep(service, 'wound-treated', at, { wound, what: 'death', related: 'unknown' })
  const { io, out } = captured()
  assert.equal(await runMain(['known', wound, '--json', '--data', service.file], io), 0)
  assert.match(out(), /reoperation[\s\S]*Washed out[\s\S]*death[\s\S]*unknown/)
})

test('the steps of an investigation have owners and days by any way in, and its samples stand beside the suspects', async () => {
  const at = Instant.parse(present)
  const investigation = 'investigation:steps'
  await keep(service, 'investigation-opened', at, {
    investigation,
    because: 'worry',
    wounds: [],
    why: 'Four in one theatre',
    lead: surgeon.id,
  })
  const marked = { investigation, step: 'embargo', state: 'underWay', owner: surgeon.id, due: '2026-06-12' } as const
  const line = JSON.stringify(entryOf('investigation-step-marked', '17:10', marked))
  const sample = { sample: 'sample:tap', place: 'aerator', where: 'Tap of theatre 2', lookingFor: 'anything' } as const
  const taken = JSON.stringify(entryOf('sample-taken', '17:20', { ...sample, investigation }))
  const sent = captured(`${line}\n${taken}\n`)
  assert.equal(await runMain(['record', '--data', service.file], sent.io), 0, sent.err())
  const row = await answerOf<{ readonly state: unknown }>(service, `/api/known/${investigation}`)
  assert.partialDeepStrictEqual(row.state, {
    steps: { embargo: { state: 'underWay', owner: surgeon.id, due: '2026-06-12' } },
    samples: ['sample:tap'],
  })
  const suspects = await told('suspects', '--investigation', 'steps')
  assert.match(suspects, /^sample\t2026-06-10\taerator\tTap of theatre 2\t-\twaiting\t/m)
  assert.match(suspects, /no recall by itself|recall load/)
})

test('an association is concluded only with what a test showed, and why, by any way in', async () => {
  const investigation = 'investigation:tests'
  const kept = async (entry: ReturnType<typeof entryOf>, wanted: number) => {
    const { status, body } = await service.ask('POST', '/api/entries', entry)
    assert.equal(status, wanted, JSON.stringify(body))
    return JSON.stringify(body)
  }
  const opened = { investigation, because: 'worry', wounds: [], why: 'Four in one theatre', lead: surgeon.id } as const
  await kept(entryOf('investigation-opened', '17:10', { ...opened, wounds: [] }), 201)
  for (const step of investigationSteps)
    // oxlint-disable-next-line no-await-in-loop
    await kept(entryOf('investigation-step-marked', '17:15', { investigation, step, state: 'notNeeded' }), 201)
  const air = entryOf('hypothesis-stated', '17:20', { investigation, says: 'The air', standing: 'supported' })
  await kept(air, 201)
  const words = { says: 'It goes with theatre 2.', changed: 'Filters are changed.' }
  const closing = () =>
    entryOf('investigation-closed', '17:40', { investigation, conclusion: 'associationFound', ...words })
  const hypothesis = EntryId.parse(air.id)
  const result = (said: 'supported' | 'notSupported' | 'notDecided', why: string) =>
    entryOf('hypothesis-tested', '17:30', { investigation, hypothesis, result: said, why })
  assert.match(await kept(closing(), 409), /of no hypothesis is it said what its test showed/)
  await kept(result('supported', ''), 422)
  // By the command line: a result against it is kept, and the closing is refused for it.
  const sent = captured(
    `${JSON.stringify(result('notSupported', 'Settle plates grew nothing'))}\n${JSON.stringify(closing())}\n`,
  )
  assert.equal(await runMain(['record', '--data', service.file], sent.io), 3, sent.err())
  assert.match(sent.out(), /"outcome":"kept"[\s\S]*"outcome":"refused".*no hypothesis that was tested is supported/)
  await kept(result('notDecided', 'Plates were taken in an empty theatre'), 201)
  const found = await service.ask('POST', '/api/entries/judge', closing())
  assert.match(JSON.stringify(found.body), /"weight":"caution".*it is not decided/)
  await kept(result('supported', 'Plates of a running list grew the germ of the wounds'), 201)
  await kept(closing(), 201)
  assert.match(
    await told('investigation', 'tests'),
    /^hypothesis\tsupported\tThe air\tsupported\tPlates of a running list grew the germ of the wounds$/m,
  )
})
