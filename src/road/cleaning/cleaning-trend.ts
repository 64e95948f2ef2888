import type { Policy } from '../policy.ts'
import type { SubjectId } from '../subject.ts'
import type { SoilAnalyte } from './cleaning-test-limits.ts'
import { soilOutcome } from './cleaning-test.ts'
import type { WashKnown, WashTest } from './fold.ts'

export const trendGroupings = ['washer', 'device'] as const
export type TrendGrouping = (typeof trendGroupings)[number]

/** What tests belong together: one washer, washing by hand, one kind of instrument, or no instrument named. */
export type TrendGroup = SubjectId<'machine'> | SubjectId<'device'> | 'manual' | 'notStated'

/** The tests of one group for one thing that is measured, in the order in which they were made. */
export interface CleaningTrend {
  readonly group: TrendGroup
  readonly tests: readonly WashTest[]
  readonly last: WashTest
  readonly highest: number
  /** How many reached the alert level but not more than the action level. */
  readonly alerts: number
  /** How many were above the action level. */
  readonly actions: number
}

/** Tests of one analyte by washer or by device, the group with the most above the action level first. */
export function cleaningTrends(
  washes: readonly WashKnown[],
  analyte: SoilAnalyte,
  by: TrendGrouping,
  policy: Policy,
): readonly CleaningTrend[] {
  const groups = new Map<TrendGroup, WashTest[]>()
  for (const wash of washes) {
    for (const test of wash.tests.filter((each) => each.analyte === analyte)) {
      const group = by === 'washer' ? washerOf(wash) : (test.device ?? 'notStated')
      groups.set(group, [...(groups.get(group) ?? []), test])
    }
  }
  return [...groups]
    .flatMap(([group, tests]) => trendOf(group, tests, policy))
    .toSorted((a, b) => b.actions - a.actions || b.alerts - a.alerts || b.tests.length - a.tests.length)
}

function washerOf({ how }: WashKnown): TrendGroup {
  if (how === null) return 'notStated'
  return how.kind === 'washer' ? how.machine : 'manual'
}

function trendOf(group: TrendGroup, unsorted: readonly WashTest[], policy: Policy): readonly CleaningTrend[] {
  const tests = unsorted.toSorted((a, b) => (a.at < b.at ? -1 : 1))
  const last = tests.at(-1)
  if (last === undefined) return []
  const outcomes = tests.map((test) => soilOutcome(test, policy))
  return [
    {
      group,
      tests,
      last,
      highest: Math.max(...tests.map((test) => test.value)),
      alerts: outcomes.filter((each) => each === 'alert').length,
      actions: outcomes.filter((each) => each === 'action').length,
    },
  ]
}
