import type { SetKnown } from '../catalogue/fold.ts'
import type { SubjectId } from '../subject.ts'

type DeviceId = SubjectId<'device'>
export type CountSheet = SetKnown['countSheet']

export interface LineCount {
  readonly line: CountSheet[number]
  /** What fills this line: its own device, and what stands in for it. */
  readonly here: number
}

/**
 * What was counted, held against the sheet. A piece fills one line only: first the line of its own device, then, if it
 * is left over, a line that is short and names it as a substitute; the line with the fewest substitutes chooses first.
 * What is still left over is added to the line that it belongs to.
 */
export function countAgainstSheet(sheet: CountSheet, counted: ReadonlyMap<DeviceId, number>): readonly LineCount[] {
  const left = new Map(counted)
  const here = new Map<CountSheet[number], number>()
  const take = (line: CountSheet[number], device: DeviceId, most: number) => {
    const taken = Math.min(most, left.get(device) ?? 0)
    left.set(device, (left.get(device) ?? 0) - taken)
    here.set(line, (here.get(line) ?? 0) + taken)
  }
  for (const line of sheet) take(line, line.device, line.count)
  const byChoice = sheet.toSorted((a, b) => (a.substitutes?.length ?? 0) - (b.substitutes?.length ?? 0))
  for (const line of byChoice) {
    for (const device of line.substitutes ?? []) take(line, device, line.count - (here.get(line) ?? 0))
  }
  for (const line of sheet) take(line, line.device, Infinity)
  for (const line of sheet) for (const device of line.substitutes ?? []) take(line, device, Infinity)
  return sheet.map((line) => ({ line, here: here.get(line) ?? 0 }))
}
