import type { Source } from '#units/source.ts'
import type { EntryId } from '../entry.ts'
import { type Instant, instant, millis } from '../instant.ts'
import type { Policy } from '../policy.ts'
import { airRemovalOfDay } from './air-removal-of-day.ts'
import { biologicalSchedule } from './biological-schedule.ts'
import { type LotOfIndicator, noLotKnown } from './incubation.ts'
import { leakTestEveryDays } from './limits.ts'
import type { ListedLoad } from './listed-load.ts'
import { biologicalOutcome, isRead, loadTime } from './load-fold.ts'
import type { MachineKnown } from './machine-fold.ts'
import { methodOf } from './method-of.ts'
import { cdcMonitoring, mmwrControl } from './sources.ts'
import { wantedIncubation } from './wanted-incubation.ts'

/**
 * Where a test stands today: done; due (today, or before the next load); overdue; waiting for its reading; or
 * asked of every load anew.
 */
export type DueState = 'done' | 'due' | 'overdue' | 'waits' | 'eachLoad'

export interface DueTest {
  readonly test: 'airRemoval' | 'leak' | 'biological' | 'control'
  readonly state: DueState
  /** When it was last done, and in which entry. */
  readonly last: { readonly at: Instant; readonly entry: EntryId | null } | null
  /** By when it is due; null when it hangs on the day or on each load. */
  readonly dueBy: Instant | null
  /** The lot, for the control of an indicator. */
  readonly lot: string | null
  readonly source: Source
}

export interface DueContext {
  readonly now: Instant
  readonly policy: Policy
  readonly dayOf: (moment: Instant) => string
  /** What is known of the lots of indicators; left out: nothing. */
  readonly lotOf?: LotOfIndicator
}

const day = 86_400_000

/** The tests that a steriliser needs today by its method, from its state and its latest loads in any order. */
export function dueTests(machine: MachineKnown, loads: readonly ListedLoad[], context: DueContext): readonly DueTest[] {
  if (methodOf(machine) === undefined) return []
  const vacuum = machine.airRemoval === 'dynamic'
  return [
    ...(vacuum ? [leakDue(machine, context), airRemovalDue(machine, context)] : []),
    biologicalDue(machine, loads, context),
    ...controlsDue(loads, context),
  ]
}

/** Whether a test calls for somebody now. */
export function isPressing({ state }: DueTest): boolean {
  return state === 'due' || state === 'overdue'
}

function airRemovalDue(machine: MachineKnown, { now, dayOf }: DueContext): DueTest {
  const today = airRemovalOfDay(machine, now, dayOf)
  const last = machine.airRemovalTest
  return {
    test: 'airRemoval',
    state: today === 'failed' ? 'overdue' : today === 'notDone' ? 'due' : 'done',
    last: last === null ? null : { at: last.at, entry: last.entry },
    dueBy: null,
    lot: null,
    source: cdcMonitoring,
  }
}

function leakDue({ leakTest }: MachineKnown, { now, policy }: DueContext): DueTest {
  const { value, source } = policy.limit(leakTestEveryDays)
  const last = leakTest === null ? null : { at: leakTest.at, entry: leakTest.entry }
  return { test: 'leak', ...byDays(last, value, now), last, lot: null, source }
}

function biologicalDue(
  machine: MachineKnown,
  loads: readonly ListedLoad[],
  { now, policy, lotOf }: DueContext,
): DueTest {
  const { rhythm, days, source } = biologicalSchedule(methodOf(machine) ?? 'steam', policy)
  const wanted = wantedIncubation(machine, policy, lotOf ?? noLotKnown)
  const run = latest(loads.filter((load) => ['negative', 'positive'].includes(biologicalOutcome(load, wanted))))
  const pending = latest(loads.filter(isWaiting))
  const last = run === undefined ? null : { at: loadTime(run) ?? now, entry: run.biological.at(-1)?.entry ?? null }
  const rest = { test: 'biological', last, lot: null, source } as const
  if (rhythm === 'each load') return { ...rest, state: 'eachLoad', dueBy: null }
  const stands = byDays(last, days, now)
  const waitingAt = pending === undefined ? null : loadTime(pending)
  // An indicator that was run in time and is not read yet: nothing to run, something to read.
  if (stands.state !== 'done' && waitingAt !== null && byDays({ at: waitingAt }, days, now).state !== 'overdue') {
    return { ...rest, state: 'waits', dueBy: stands.dueBy }
  }
  return { ...rest, ...stands }
}

/** One control for each lot whose indicators wait, each day: an indicator of the same lot that was not sterilised. */
function controlsDue(loads: readonly ListedLoad[], { now, dayOf }: DueContext): readonly DueTest[] {
  const today = dayOf(now)
  const waiting = loads.filter((load) => isWaiting(load) && dayOf(loadTime(load) ?? now) === today)
  const lots = new Set(waiting.flatMap((load) => load.challenge?.biologicalLot ?? []))
  return [...lots].map((lot): DueTest => {
    const read = loads
      .flatMap((load) => load.biological)
      .find((each) => each.control?.lot === lot && each.control.result === 'growth' && dayOf(each.at) === today)
    return {
      test: 'control',
      state: read === undefined ? 'due' : 'done',
      last: read === undefined ? null : { at: read.at, entry: read.entry },
      dueBy: null,
      lot,
      source: mmwrControl,
    }
  })
}

function isWaiting(load: ListedLoad): boolean {
  return load.challenge?.biologicalLot !== undefined && !isRead(load)
}

/** Done until its days are over, due in the last of them. */
function byDays(
  last: { readonly at: Instant } | null,
  days: number,
  now: Instant,
): { readonly state: 'done' | 'due' | 'overdue'; readonly dueBy: Instant | null } {
  if (last === null) return { state: 'overdue', dueBy: null }
  const by = millis(last.at) + days * day
  const left = by - millis(now)
  const dueBy = instant(by)
  if (left < 0) return { state: 'overdue', dueBy }
  // A test of each day is due again once its day is over, not an hour after it was done.
  return { state: days > 1 && left < day ? 'due' : 'done', dueBy }
}

function latest(loads: readonly ListedLoad[]): ListedLoad | undefined {
  return loads.reduce<ListedLoad | undefined>(
    (newest, load) => (newest === undefined || (loadTime(load) ?? '') > (loadTime(newest) ?? '') ? load : newest),
    undefined,
  )
}
