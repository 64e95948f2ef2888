import type { Problem } from '#units/problem.ts'
import type { MachineKnown } from '#road/sterilising/machine-fold.ts'
import { subjectOf } from '#road/subject.ts'
import type { Reader } from '#journal/journal.ts'

/** The machine that a word names, by its key or as a subject. */
export async function machineByWord(reader: Reader, word: string): Promise<MachineKnown | Problem> {
  const unknown = { field: 'machine', wanted: 'a machine of the record', current: JSON.stringify(word) }
  const id = subjectOf('machine').safeParse(word.includes(':') ? word : `machine:${word}`)
  if (!id.success) return unknown
  return (await reader.known([id.data])).get(id.data) ?? unknown
}
