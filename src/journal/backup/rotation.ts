import { type Instant, millis } from '#road/instant.ts'

/** How many backups are kept: the last of each of so many days, weeks and months that have one. */
export interface Rotation {
  readonly daily: number
  readonly weekly: number
  readonly monthly: number
}

/** Common practice, no published source: a week by the day, a month by the week, a year by the month. */
export const usualRotation: Rotation = { daily: 7, weekly: 5, monthly: 12 }

const dayMilliseconds = 86_400_000

/** The backups that may go. The newest never is among them, whatever the rotation says. */
export function toRemove<T extends { readonly madeAt: Instant }>(backups: readonly T[], rotation: Rotation): T[] {
  const newestFirst = backups.toSorted((a, b) => (a.madeAt < b.madeAt ? 1 : -1))
  const kept = new Set<T>(newestFirst.slice(0, 1))
  for (const [most, periodOf] of [
    [rotation.daily, dayOf],
    [rotation.weekly, weekOf],
    [rotation.monthly, monthOf],
  ] as const) {
    const periods = new Set<string | number>()
    for (const backup of newestFirst) {
      const period = periodOf(backup.madeAt)
      if (periods.has(period)) continue
      if (periods.size >= most) break
      periods.add(period)
      kept.add(backup)
    }
  }
  return newestFirst.filter((backup) => !kept.has(backup))
}

function dayOf(at: Instant): number {
  return Math.floor(millis(at) / dayMilliseconds)
}

/** Weeks from Monday: 1970-01-01 was a Thursday. */
function weekOf(at: Instant): number {
  return Math.floor((dayOf(at) + 3) / 7)
}

function monthOf(at: Instant): string {
  return at.slice(0, 7)
}
