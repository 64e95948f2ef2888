import type { Problem } from '#units/problem.ts'
import type { MachineKnown } from '#road/sterilising/machine-fold.ts'
import { subjectOf } from '#road/subject.ts'
import { askRecord } from './ask-record.ts'
import type { RecordAsked } from './log-command.ts'

/** How the columns of a machine's logs are read, as a record keeps it: null where it keeps none. */
export async function mapOfMachine(record: RecordAsked, key: string): Promise<Pick<MachineKnown, 'logMap'> | Problem> {
  const unknown = { field: '--machine', wanted: 'a machine of the record', current: JSON.stringify(key) }
  const machine = subjectOf('machine').safeParse(`machine:${key}`)
  if (!machine.success) return unknown
  return await askRecord(record, async (reader) => (await reader.known([machine.data])).get(machine.data) ?? unknown)
}
