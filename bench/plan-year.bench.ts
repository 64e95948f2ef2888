import { createHash } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { demoSeed } from '#demo/demo-stories.ts'
import { demoUnit } from '#demo/demo-unit.ts'
import { hospitalClockOf, today } from '#demo/hospital-clock.ts'
import type { Reader } from '#journal/journal.ts'
import { openJournal } from '#journal/open-journal.ts'
import { AttachmentDigest } from '#road/attachment.ts'
import { type SentEntry, SiteId } from '#road/entry.ts'
import { instant, minutesBetween } from '#road/instant.ts'
import { dayIn } from '#road/local-day.ts'
import { instanceOfDay } from '#road/planning/instance-of-day.ts'
import { theRoad } from '#road/the-road.ts'
import { readDay } from '#service/planning/read-day.ts'
import { type BenchRow, summarise } from './measure.ts'
import { type Arm, type ArmName, armNames, armsOf, figureNames, type Figures, figuresOf } from './plan-year-arms.ts'

/** The demonstration's present: its hospital then keeps the time of Greenwich. */
const until = instant(Date.parse('2026-11-25T13:40:00.000Z'))
/** Each day is planned at six, from what had been entered by then. */
const planningMinute = 360

interface DayPlanned {
  readonly arms: Readonly<Record<ArmName, Arm>>
  readonly drawn: Readonly<Record<ArmName, Figures>>
}

/**
 * Plans each operating day of the demonstration from its record as it stood that morning, and runs the lists as booked, the
 * booked order packed, and the plan with the same luck. A figure is of one day; the standard error is that of its mean over days.
 */
export async function planYearBench(): Promise<readonly BenchRow[]> {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-plan-year-'))
  try {
    const at = { kind: 'sqlite', file: join(folder, 'unit.sqlite') } as const
    await using journal = await openJournal({ at, road: theRoad, now: () => until })
    const site = SiteId.parse('unit')
    const reader = journal.read(site)
    const clock = hospitalClockOf(until)
    const days: DayPlanned[] = []
    const leftOut = new Map<string, number>()
    let workingDay = 0
    let chunk: SentEntry[] = []
    for (const step of demoUnit({ seed: demoSeed, until, site, digest })) {
      if (step.kind === 'attachment') {
        await journal.attach(new TextEncoder().encode(step.text), step.mediaType)
        continue
      }
      while (workingDay <= today && enteredAt(step.entry) >= clock.at(workingDay, planningMinute)) {
        await journal.appendMany(chunk)
        chunk = []
        const planned = await planMorning(reader, clock.at(workingDay, planningMinute), clock.timeZone)
        if (typeof planned === 'string') leftOut.set(planned, (leftOut.get(planned) ?? 0) + 1)
        else days.push(planned)
        workingDay += 1
      }
      chunk.push(step.entry)
    }
    await journal.appendMany(chunk)
    for (const [why, count] of leftOut) console.log(`  left out: ${count} days, ${why}`)
    tellWhatWasPlanned(days.map(({ arms }) => arms.plan))
    const short = days.filter(({ arms }) => lacksSets(arms.plan))
    console.log(`  too few sets: on ${short.length} days a type is booked for more uses than it has sets`)
    const drawnOf = (some: readonly DayPlanned[]) => some.map(({ drawn }) => drawn)
    return [
      ...rowsOf('drawn', drawnOf(days)),
      ...rowsOf('drawn, too few sets', drawnOf(short)),
      ...rowsOf('drawn, sets suffice', drawnOf(days.filter((day) => !short.includes(day)))),
      ...rowsOf('recorded', await asRecorded(reader, days)),
    ]
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** Whether a set has to come back on the day itself. */
function lacksSets({ day }: Arm): boolean {
  return day.setTypes.some(({ id, units }) => day.cases.reduce((sum, { needs }) => sum + (needs[id] ?? 0), 0) > units)
}

/** What the figures rest on: how many plans are proven, and how often a set has to come back on the day itself. */
function tellWhatWasPlanned(plans: readonly Arm[]): void {
  const counted = (of: (arm: Arm) => number): number => plans.reduce((sum, arm) => sum + of(arm), 0)
  const cases = counted(({ day }) => day.cases.length)
  const bare = counted(({ day }) => day.cases.filter(({ needs }) => Object.keys(needs).length === 0).length)
  const uses = counted(({ schedule }) => schedule.uses.length)
  const back = counted(({ schedule }) => schedule.uses.filter(({ job }) => job !== undefined).length)
  const proven = counted(({ proven: is }) => (is ? 1 : 0))
  console.log(`  planned: ${plans.length} days, ${proven} plans proven, ${cases} cases, ${bare} of them without sets`)
  console.log(`  sets: ${uses} uses, ${back} of them come back through the line for another case of the day`)
}

/** A day planned, or why it is left out. */
async function planMorning(reader: Reader, moment: number, timeZone: string): Promise<DayPlanned | string> {
  const now = instant(moment)
  const made = instanceOfDay(await readDay(reader, dayIn(timeZone, now), now))
  const arms = armsOf(made)
  if (typeof arms === 'string') return arms
  const spread = Object.fromEntries(
    made.cases.flatMap(({ plan, minutes }) => (minutes.fit === null ? [] : [[plan.id, minutes.fit.logSd] as const])),
  )
  if (Object.keys(spread).length < made.cases.length) return 'a case without a spread of durations on record'
  return { arms, drawn: figuresOf(arms, { spread, runs: 200 }) }
}

/** The same lists with the minutes that the operations of that day were recorded with, once. */
async function asRecorded(
  reader: Reader,
  days: readonly DayPlanned[],
): Promise<readonly Readonly<Record<ArmName, Figures>>[]> {
  const recorded = await reader.standing('case', ['recorded'])
  const minutes = new Map(
    recorded.flatMap(({ id, recorded: own }) =>
      own === null ? [] : [[id.slice('case:'.length), minutesBetween(own.startedAt, own.endedAt)] as const],
    ),
  )
  return days.flatMap(({ arms }) => {
    if (!arms.booked.day.cases.every(({ id }) => minutes.has(id))) return []
    const real = (arm: Arm): Arm => ({
      ...arm,
      day: { ...arm.day, cases: arm.day.cases.map((one) => ({ ...one, dur: minutes.get(one.id) ?? one.dur })) },
    })
    return figuresOf(
      { booked: real(arms.booked), packed: real(arms.packed), plan: real(arms.plan) },
      { spread: {}, runs: 1 },
    )
  })
}

function rowsOf(how: string, days: readonly Readonly<Record<ArmName, Figures>>[]): readonly BenchRow[] {
  return figureNames.flatMap(([name, unit]) => [
    ...armNames.map((arm) =>
      rowOfDays(
        `${how}: ${name}, ${arm}`,
        unit,
        days.map((day) => day[arm][name]),
      ),
    ),
    ...(['booked', 'packed'] as const).map((arm) =>
      rowOfDays(
        `${how}: ${name}, plan less ${arm}`,
        unit,
        days.map((day) => day.plan[name] - day[arm][name]),
      ),
    ),
  ])
}

function rowOfDays(name: string, unit: string, figures: readonly number[]): BenchRow {
  const n = figures.length
  const mean = figures.reduce((sum, each) => sum + each, 0) / n
  const variance = figures.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (n - 1)
  return summarise(name, unit, figures, `mean ${mean.toFixed(3)}, standard error ${Math.sqrt(variance / n).toFixed(3)}`)
}

/** When an entry was made, which its id tells (RFC 9562, UUID version 7: 48 bits of milliseconds). */
function enteredAt({ id }: SentEntry): number {
  return Number.parseInt(id.replaceAll('-', '').slice(0, 12), 16)
}

function digest(text: string): AttachmentDigest {
  return AttachmentDigest.parse(createHash('sha256').update(text, 'utf8').digest('hex'))
}
