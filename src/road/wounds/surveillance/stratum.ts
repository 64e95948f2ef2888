import type { CaseLine } from './line.ts'

/** Cases that may be compared with each other: the same month, the same kind of operation. */
export function stratumOf(line: CaseLine): string {
  return `${line.day.slice(0, 7)} ${line.category ?? line.procedure}`
}
