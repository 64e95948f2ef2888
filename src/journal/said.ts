import type { AttachmentDigest } from '#road/attachment.ts'
import type { KeptEntry } from '#road/entry.ts'
import type { LinkSeed } from '#road/kind.ts'
import type { TypedKept } from '#road/kinds.ts'
import type { Road } from '#road/road.ts'
import type { SubjectId } from '#road/subject.ts'
import { programItself } from './program.ts'

/** What a kept entry says: the subjects whose fold reads it, and the links that it makes. */
export interface Said {
  readonly entry: TypedKept
  readonly subjects: readonly SubjectId[]
  readonly links: readonly LinkSeed[]
  readonly files: readonly AttachmentDigest[]
}

/**
 * Reads a kept entry with the road. Undefined for a kind or a body that this version cannot read, as a newer
 * version may have kept: such an entry stays in the chain and says nothing.
 */
export function whatIsSaid(road: Road, kept: KeptEntry): Said | undefined {
  const read = road.read(kept)
  if (read.kind !== 'typed') return undefined
  // The road gives back what it was given with the body checked, so a kept entry stays a kept one.
  const entry = read.entry as TypedKept
  const about = road.about(entry)
  const subjects = [...new Set(about.subjects)]
  return { entry, subjects, links: [...about.links, ...linkToAuthor(entry, subjects)], files: about.files }
}

/** Every step hangs on who did it, so that a trace reaches people too. */
function linkToAuthor(entry: TypedKept, subjects: readonly SubjectId[]): LinkSeed[] {
  const [main] = subjects
  // Nothing is learned from a person linked to themselves, as on registering oneself.
  if (main === undefined || entry.by === programItself || main === entry.by) return []
  return [{ from: main, relation: 'by', to: entry.by }]
}
