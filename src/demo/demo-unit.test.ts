import assert from 'node:assert/strict'
import { createHash } from 'node:crypto'
import { test } from 'node:test'
import { AttachmentDigest } from '#road/attachment.ts'
import { SentEntry, SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import { soilOutcome } from '#road/cleaning/cleaning-test.ts'
import { policyFrom } from '#road/policy.ts'
import { about, readEntry } from '#road/read-entry.ts'
import { demoSeed, demoSteps } from './demo-stories.ts'
import { type DemoStep, demoUnit } from './demo-unit.ts'

const site = SiteId.parse('demo')
const sha256 = (text: string) => AttachmentDigest.parse(createHash('sha256').update(text).digest('hex'))

function stepsOf(until: string): DemoStep[] {
  return [...demoUnit({ seed: demoSeed, until: until as Instant, site, digest: sha256 })]
}

function entriesOf(steps: readonly DemoStep[]): SentEntry[] {
  return steps.flatMap((step) => (step.kind === 'entry' ? step.entry : []))
}

const until = '2026-11-25T09:31:00.000Z'
const started = process.cpuUsage()
const steps = stepsOf(until)
const spent = process.cpuUsage(started)
const entries = entriesOf(steps)
const count = (kind: string) => entries.filter((entry) => entry.kind === kind).length

test('demoUnit writes a year of about 1,200 cases and 5,000 rounds', () => {
  assert.ok(count('case-recorded') >= 1140 && count('case-recorded') <= 1260, `${count('case-recorded')} cases`)
  const rounds = count('use-ended') + count('reprocessing-started')
  assert.ok(rounds >= 4500 && rounds <= 5500, `${rounds} rounds`)
  assert.equal(count('set-registered'), 35)
  assert.equal(count('person-registered'), 14)
  assert.equal(count('machine-registered'), 6)
  assert.ok(Math.abs(steps.length - demoSteps) < 0.03 * demoSteps, `${steps.length} steps`)
})

test('demoUnit takes under 15 s of one core and keeps its files under 25 MB', () => {
  const seconds = (spent.user + spent.system) / 1e6
  assert.ok(seconds < 15, `${seconds} s`)
  const bytes = steps.reduce((sum, step) => sum + (step.kind === 'attachment' ? step.text.length : 0), 0)
  assert.ok(bytes < 25e6, `${bytes} bytes`)
})

test('every entry of demoUnit has the form of a sent entry and a body that its kind accepts', () => {
  for (const entry of entries) {
    assert.equal(SentEntry.safeParse(entry).success, true, JSON.stringify(entry))
    const read = readEntry(entry)
    assert.equal(read.kind, 'typed', `${entry.kind} ${JSON.stringify(read)}`)
  }
})

test('demoUnit tests cleaning through the year; by hand it rises over alert and action while the washer is away', () => {
  const found = entries.flatMap((entry) => {
    const read = readEntry(entry)
    return read.kind === 'typed' && read.entry.kind === 'cleaning-tested' ? read.entry : []
  })
  assert.deepEqual([...new Set(found.map(({ body }) => body.analyte))].sort(), ['atp', 'haemoglobin', 'protein'])
  const policy = policyFrom(undefined)
  const over = (outcome: 'alert' | 'action') => found.filter(({ body }) => soilOutcome(body, policy) === outcome)
  const byHand = new Set(
    entries.flatMap((entry) => {
      const read = readEntry(entry)
      if (read.kind !== 'typed' || read.entry.kind !== 'wash-recorded') return []
      return read.entry.body.how.kind === 'manual' ? read.entry.body.wash : []
    }),
  )
  const above = over('action').map(({ body }) => body)
  assert.deepEqual(above.map(({ analyte }) => analyte).sort(), ['haemoglobin', 'protein'])
  assert.ok(above.every(({ wash }) => wash !== undefined && byHand.has(wash)))
  assert.ok(over('alert').length >= 3, `${over('alert').length} at the alert level`)
})

test('the ids of demoUnit are unique and in the order of its entries, and nothing happens after the end', () => {
  let last = ''
  for (const { id, happenedAt } of entries) {
    assert.ok(id > last, `${id} after ${last}`)
    last = id
    assert.ok(happenedAt <= until)
  }
})

test('whatever an entry of demoUnit names is known before, files and corrected entries included', () => {
  const known = new Set<string>()
  for (const step of steps) {
    if (step.kind === 'attachment') {
      known.add(sha256(step.text))
      continue
    }
    const { entry } = step
    const read = readEntry(entry)
    assert.equal(read.kind, 'typed')
    if (read.kind !== 'typed') continue
    const { creates, subjects, mentions } = about(read.entry)
    for (const id of creates) known.add(id)
    for (const id of [...subjects, ...mentions, entry.by]) assert.ok(known.has(id), `${entry.kind} names ${id}`)
    if (entry.corrects !== undefined) assert.ok(known.has(entry.corrects))
    if (read.entry.kind === 'cycle-logged') assert.ok(known.has(read.entry.body.log))
    known.add(entry.id)
  }
})

test('demoUnit is the same for the same seed and end, and another for another seed', () => {
  const text = (all: readonly DemoStep[]) => sha256(JSON.stringify(all))
  assert.equal(text(stepsOf(until)), text(steps))
  const others = demoUnit({ seed: demoSeed + 1, until: until as Instant, site, digest: sha256 })
  const begun = Array.from({ length: 400 }, () => others.next().value)
  assert.notDeepEqual(begun, steps.slice(0, 400))
})
