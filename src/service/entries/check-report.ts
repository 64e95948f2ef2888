import type { Problem } from '#units/problem.ts'
import type { TypedSent } from '#road/kinds.ts'
import type { RecordContext } from '../context.ts'
import { checkCycleReport } from '../cycles/check-cycle-report.ts'
import { checkWashFigure } from '../cycles/check-wash-figure.ts'

/**
 * A report is never trusted: it is worked out again from the log that it names. An entry that was kept before is not
 * asked again, since a later version may read the same log otherwise.
 */
export async function checkReport(context: RecordContext, entry: TypedSent): Promise<readonly Problem[]> {
  if (entry.kind !== 'cycle-logged' && entry.kind !== 'wash-recorded') return []
  if ((await context.reader.entry(entry.id)) !== undefined) return []
  return entry.kind === 'cycle-logged' ? checkCycleReport(context, entry.body) : checkWashFigure(context, entry)
}
