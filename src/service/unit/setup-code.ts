import type { Notes } from '#journal/journal.ts'
import { digestOf, newCode, readCode } from '../sign-in/secrets.ts'

const note = 'setup-code'

/**
 * The one-time code by which the first manager proves to be at the console. Kept as a digest beside the record, so that any
 * of several services takes it; the one printed last counts.
 */
export async function newSetupCode(notes: Notes): Promise<string> {
  const code = newCode()
  await notes.write(note, digestOf('code', readCode(code)))
  return code
}

export async function isSetupCode(notes: Notes, code: string): Promise<boolean> {
  return (await notes.read(note)) === digestOf('code', readCode(code))
}

export async function endSetupCode(notes: Notes): Promise<void> {
  await notes.clear(note)
}
