import type { Problem } from '#units/problem.ts'
import { unitPolicy } from '#road/gather.ts'
import type { Instant } from '#road/instant.ts'
import { type Policy, policyAt, policyFrom } from '#road/policy.ts'
import { askRecord } from './ask-record.ts'
import type { RecordAsked } from './log-command.ts'

/** The limits of a record that were in force at a moment; null asks for those of now. */
export async function policyOfRecord(record: RecordAsked, moment: Instant | null): Promise<Policy | Problem> {
  return await askRecord(record, async (reader) => {
    const known = (await reader.known([unitPolicy])).get(unitPolicy)
    return moment === null ? policyFrom(known) : policyAt(known, moment)
  })
}
