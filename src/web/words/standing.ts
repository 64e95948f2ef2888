import type { SubjectKind } from '#road/subject.ts'
import { words } from './words.ts'

/** A standing in words. One of a newer version is shown as it came. */
export function standingText(kind: SubjectKind, standing: string | null): string {
  if (standing === null) return ''
  const { standings } = words
  const table: Readonly<Record<string, string>> =
    kind === 'round'
      ? standings.round
      : kind === 'load'
        ? standings.load
        : kind === 'case'
          ? standings.case
          : standings.other
  return table[standing] ?? standing
}

/** A stretch of time in two steps of precision: 45 min, 3 h 20 min, 2 d 4 h. */
export function spanText(milliseconds: number): string {
  const minutes = Math.max(0, Math.floor(milliseconds / 60_000))
  if (minutes < 1) return words.time.now
  if (minutes < 60) return words.time.minutes(minutes)
  const hours = Math.floor(minutes / 60)
  if (hours < 48) return words.time.hours(hours, hours < 10 ? minutes % 60 : 0)
  return words.time.days(Math.floor(hours / 24), hours < 240 ? hours % 24 : 0)
}
