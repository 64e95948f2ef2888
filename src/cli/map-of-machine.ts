import type { Problem } from '#units/problem.ts'
import type { Instant } from '#road/instant.ts'
import type { MachineKnown } from '#road/sterilising/machine-fold.ts'
import { readInForceAt } from '#road/sterilising/read-in-force.ts'
import { subjectOf } from '#road/subject.ts'
import { askRecord } from './ask-record.ts'
import type { RecordAsked } from './log-command.ts'

/**
 * How the columns of a machine's logs were read at a moment, as a record keeps it: null where it keeps none. A log that does
 * not tell its time is read as it would be now.
 */
export async function mapOfMachine(
  record: RecordAsked,
  key: string,
  at: Instant | null,
): Promise<Pick<MachineKnown, 'logMap'> | Problem> {
  const unknown = { field: '--machine', wanted: 'a machine of the record', current: JSON.stringify(key) }
  const machine = subjectOf('machine').safeParse(`machine:${key}`)
  if (!machine.success) return unknown
  return await askRecord(record, async (reader) => {
    const known = (await reader.known([machine.data])).get(machine.data)
    return known === undefined ? unknown : readInForceAt(known, at)
  })
}
