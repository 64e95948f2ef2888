import assert from 'node:assert/strict'
import { createHash } from 'node:crypto'
import { after, test } from 'node:test'
import { demoSeed, demoStories } from '#demo/demo-stories.ts'
import { demoUnit } from '#demo/demo-unit.ts'
import { AttachmentDigest } from '#road/attachment.ts'
import { SiteId } from '#road/entry.ts'
import { instant, type Instant, millis } from '#road/instant.ts'
import { MemoryRecord } from '../support/memory-record.ts'
import { computeInWorkers } from '#service/compute/compute.ts'
import { callsDue } from '#service/wounds/calls-due.ts'
import { readChart } from '#service/wounds/read-chart.ts'
import { readLines } from '#service/wounds/read-lines.ts'
import { suspectsFrom } from '#service/wounds/suspects.ts'

/* The wounds of the demonstration, read as the screens read them: what was planted is found, and nothing is left undone. */

const until = '2026-11-25T09:31:00.000Z' as Instant
const { lateWounds, handWash } = demoStories
const dayMs = 86_400_000

const record = new MemoryRecord()
const digest = (text: string) => AttachmentDigest.parse(createHash('sha256').update(text).digest('hex'))
for (const step of demoUnit({ seed: demoSeed, until, site: SiteId.parse('demo'), digest })) {
  if (step.kind === 'attachment') continue
  const made = Number.parseInt(step.entry.id.replaceAll('-', '').slice(0, 12), 16)
  // oxlint-disable-next-line no-await-in-loop: one entry after the other, as they were made
  await record.send(step.entry, instant(made))
}
const compute = computeInWorkers({ workers: 1, secondsAllowed: 60 })
after(async () => await compute.close())

test('of all that the late infections met, the planted load comes first, with the shelf on which its packs stood', async () => {
  const { ranking, titles } = await suspectsFrom(record, compute, until, {
    days: 120,
    infections: 'late',
    permutations: 999,
  })
  const [first, second, third] = ranking.ranked
  assert.equal(first?.id, lateWounds.load)
  assert.equal(first.rank, 1)
  assert.equal(first.casesUnexposed, 0, 'each of the infected had one of its packs')
  assert.ok(first.familyWiseP <= 0.01, `${first.familyWiseP}`)
  // The same packs stood on the shelf, so the cases cannot tell the two apart.
  assert.equal(second?.id, lateWounds.shelf)
  assert.equal(second.alike, first.alike)
  assert.ok((third?.familyWiseP ?? 1) > first.familyWiseP)
  assert.ok(titles[lateWounds.load])
})

test('of all exposures of the counted infections, washing by hand comes first', async () => {
  const asked = { days: 366, infections: 'counted', permutations: 999 } as const
  const { ranking } = await suspectsFrom(record, compute, until, asked)
  const [first] = ranking.ranked
  assert.deepEqual([first?.type, first?.id], ['condition', 'washedByHand'])
})

test('the chart alarms at the planted rise and nowhere else: on the day after the first infected operation', async () => {
  const answer = await readChart(record, handWash.chart, until)
  const path = answer?.path
  assert.ok(path)
  // Three years of 1,200 operations; the limit that the design finds holds it to 1 in 200.
  assert.ok(Math.abs(path.design.withoutRise - 3600) < 18, `${path.design.withoutRise}`)
  const alarms = path.points.filter((point) => point.alarm)
  const infected = path.points.filter((point) => point.infected && handWash.cases.some((each) => each === point.case))
  const [firstInfected] = infected
  const [firstAlarm] = alarms
  assert.equal(infected.length, handWash.cases.length)
  assert.ok(firstInfected && firstAlarm)
  assert.ok(alarms.every((point) => infected.includes(point)))
  const operations = path.points.indexOf(firstAlarm) - path.points.indexOf(firstInfected)
  assert.deepEqual(
    { days: Math.round((millis(firstAlarm.at) - millis(firstInfected.at)) / dayMs), operations },
    { days: 1, operations: handWash.alarmAfterOperations },
  )
  assert.equal(path.alarmSince, null, 'it was looked into, and the chart was started again')
})

test('the alarm could be known a few days after the first of these infections was noted', async () => {
  const { wounds, cases } = await readLines(record, until)
  const noted = handWash.cases.map((id) => {
    const [wound] = cases.get(id)?.wounds ?? []
    const known = wound === undefined ? undefined : wounds.get(wound)
    return { noted: millis(known?.noted?.at ?? until), judged: millis(known?.judged?.at ?? until) }
  })
  const first = Math.min(...noted.map((each) => each.noted))
  // The fourth infection brings the sum over the limit.
  const fourth = noted.slice(0, 4).reduce((latest, each) => Math.max(latest, each.judged), 0)
  const days = (fourth - first) / dayMs
  assert.ok(days > 0 && days <= handWash.alarmKnownWithinDays, `${days}`)
})

test('nearly every operation is followed up, some are lost, no call is overdue, and the wounds are judged', async () => {
  const { lines, wounds } = await readLines(record, until)
  const of = (standing: string) => lines.filter((line) => line.followUp.standing === standing).length
  const ended = of('complete') + of('lost')
  assert.ok(of('lost') > 20 && of('lost') < 0.08 * ended, `${of('lost')} of ${ended}`)
  assert.ok(lines.every((line) => line.category !== null && line.asa !== null && line.position !== null))
  const asked = lines.filter((line) => Object.keys(line.prevention).length > 0).length
  assert.ok(asked > 0.88 * lines.length && asked < lines.length)
  // Each measure has answers of every kind that it can have, and about five in six operations have them all.
  for (const measure of ['glucose', 'woundProtector'] as const) {
    const told = lines.flatMap((line) => line.prevention[measure] ?? [])
    assert.ok(told.includes('done') && told.includes('notDone'), measure)
    assert.ok(told.length > 0.82 * lines.length && told.length < asked, `${measure} ${told.length}`)
  }
  const whole = lines.filter(({ preventionTold }) => preventionTold.told === preventionTold.asked).length
  assert.ok(whole > 0.75 * lines.length && whole < 0.95 * lines.length, `${whole} of ${lines.length}`)
  const calls = await callsDue(record, until, 0)
  assert.deepEqual(
    calls.filter(({ call }) => call.state !== 'due'),
    [],
  )
  const outcomes = [...wounds.values()].map((wound) => wound.judged?.outcome ?? null)
  assert.ok(outcomes.filter((outcome) => outcome === 'notInfection').length >= 3)
  const old = [...wounds.values()].filter((wound) => (wound.noted?.at ?? until) < instant(millis(until) - 3 * dayMs))
  const open = old.filter((wound) => wound.judged === null).map((wound) => wound.id)
  assert.deepEqual(open, [lateWounds.unjudged])
})

test('an investigation of the late wounds is under way, and one tap grew what the wounds grew', async () => {
  const [open] = await record.standing('investigation', ['open'])
  assert.ok(open)
  assert.deepEqual([...(open.opened?.wounds ?? [])].toSorted(), [...lateWounds.wounds].toSorted())
  assert.equal(open.steps.lineList?.state, 'underWay')
  const results = open.hypotheses.map(({ test: shown }) => shown?.result ?? 'no result')
  assert.deepEqual(results, ['notSupported', 'supported', 'no result'])
  const grown = await record.standing('sample', ['growth'])
  assert.deepEqual(
    grown.map((sample) => [sample.taken?.from, sample.read?.sameAsWounds]),
    [['outlet:store-sink', 'same']],
  )
  assert.equal((await record.standing('sample', ['waiting'])).length, 1)
})
