import { problemsOf } from '#units/problem.ts'
import type { SentEntry } from './entry.ts'
import type { EntryKind } from './kind.ts'
import { entryKinds, type TypedSent } from './kinds.ts'
import type { About, ReadBody } from './road.ts'

const byName: ReadonlyMap<string, EntryKind<string, unknown>> = new Map(
  // Each kind is closed over its own body; here they stand in one list and the schema tells them apart.
  entryKinds.map((kind) => [kind.kind, kind as unknown as EntryKind<string, unknown>]),
)

/** Checks an entry's body against its kind; one that is kept already is read as widely as it was once taken. */
export function readEntry(entry: SentEntry): ReadBody {
  const kind = byName.get(entry.kind)
  if (kind === undefined) return { kind: 'unknownKind' }
  const schema = 'seq' in entry ? (kind.keptBody ?? kind.body) : kind.body
  const parsed = schema.safeParse(entry.body)
  if (!parsed.success) {
    const problems = problemsOf(parsed.error, entry.body).map((problem) => ({
      ...problem,
      field: problem.field === 'input' ? 'body' : `body.${problem.field}`,
    }))
    return { kind: 'unusable', problems }
  }
  return { kind: 'typed', entry: { ...entry, body: parsed.data } as TypedSent }
}

/** The definition of a kind, for screens, pages and the journal. */
export function kindNamed(name: string): EntryKind<string, unknown> | undefined {
  return byName.get(name)
}

/** What an entry is about, names, and hangs together with. */
export function about(entry: TypedSent): About {
  const kind = byName.get(entry.kind)
  if (kind === undefined) return { creates: [], subjects: [], mentions: [], links: [], files: [] }
  return {
    creates: kind.creates(entry.body),
    subjects: kind.subjects(entry.body),
    mentions: kind.mentions?.(entry.body) ?? [],
    links: kind.links?.(entry.body) ?? [],
    files: kind.files?.(entry.body) ?? [],
  }
}
