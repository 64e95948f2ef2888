import { deeperThan, levelsAllowed } from '#units/depth.ts'
import { type Problem, problemsOf } from '#units/problem.ts'
import { SentEntry } from '#road/entry.ts'
import type { TypedSent } from '#road/kinds.ts'
import type { Signature } from '#road/people/signature.ts'
import type { About, Road } from '#road/road.ts'
import { canonicalJson } from './canonical-json.ts'
import { type Unusable, unusable } from './outcome.ts'

/** An entry whose form is in order: what can be checked without looking at the record. */
export interface Prepared {
  readonly kind: 'prepared'
  readonly sent: SentEntry
  readonly typed: TypedSent
  readonly about: About
  readonly signed: readonly Signature[]
}

/** The most that an entry may hold. A file belongs into an attachment. */
export const entryBytesAllowed = 256 * 1024

/** Checks the form of an entry. Total over any input: what comes from outside must not stop the journal. */
export function prepare(road: Road, input: unknown, signed: readonly Signature[] = []): Prepared | Unusable {
  // First of all, since what follows walks the value by recursion.
  if (deeperThan(input, levelsAllowed)) return unusable(problem('body', `at most ${levelsAllowed} levels`, 'deeper'))
  const parsed = SentEntry.safeParse(input)
  if (!parsed.success) return unusable(...problemsOf(parsed.error, input))
  const sent = parsed.data
  const unwritable = problemOfText(sent)
  if (unwritable !== undefined) return unusable(unwritable)
  if (sent.kind === 'entry-withdrawn' && sent.corrects === undefined) {
    return unusable(problem('corrects', 'the id of the entry that is withdrawn', 'missing'))
  }
  const read = road.read(sent)
  switch (read.kind) {
    case 'unknownKind':
      return unusable(problem('kind', 'a kind of entry that this version knows', `"${sent.kind}"`))
    case 'unusable':
      return unusable(...read.problems)
    case 'typed':
      return { kind: 'prepared', sent, typed: read.entry, about: road.about(read.entry), signed }
  }
}

export function problem(field: string, wanted: string, current: string): Problem {
  return { field, wanted, current }
}

function problemOfText(sent: SentEntry): Problem | undefined {
  let text: string
  try {
    text = canonicalJson(sent)
  } catch (error) {
    // The schema has admitted JSON only, so what is left is text that has no UTF-8 form.
    if (error instanceof RangeError) return problem('body', 'well-formed Unicode text', 'a lone surrogate')
    throw error
  }
  const bytes = Buffer.byteLength(text)
  return bytes > entryBytesAllowed
    ? problem('body', `an entry of at most ${entryBytesAllowed} bytes; attach a file instead`, `${bytes} bytes`)
    : undefined
}
