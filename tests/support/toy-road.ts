import { z } from 'zod'
import { problemsOf } from '#units/problem.ts'
import { AttachmentDigest } from '#road/attachment.ts'
import type { Finding } from '#road/finding.ts'
import type { LinkSeed } from '#road/kind.ts'
import type { TypedKept, TypedSent } from '#road/kinds.ts'
import type { About, AnyFold, ReadBody, Road } from '#road/road.ts'
import { type SubjectId, subjectOf } from '#road/subject.ts'

/*
 * A road of a few kinds, to try the journal with: a set is made, marked, joined to another, and sealed, which is a
 * decision. The fold writes the marks down in their order, so that any other order shows.
 */

interface ToyKind {
  readonly body: z.ZodType<Record<string, unknown>>
  readonly about: (body: Body) => Partial<About>
}

interface Body {
  readonly person: SubjectId<'person'>
  readonly policy: SubjectId<'policy'>
  readonly set: SubjectId<'set'>
  readonly mark: string
  readonly to: SubjectId<'set'>
  readonly file: AttachmentDigest
}

export interface ToyState {
  readonly id: string
  readonly marks: readonly string[]
  readonly sealed: boolean
}

const follows = (body: Body): LinkSeed => ({ from: body.set, relation: 'follows', to: body.to })

const kinds: Readonly<Record<string, ToyKind>> = {
  'person-registered': {
    body: z.strictObject({ person: subjectOf('person') }),
    about: ({ person }) => ({ creates: [person], subjects: [person] }),
  },
  'policy-changed': {
    body: z.strictObject({ policy: subjectOf('policy'), mark: z.string() }),
    about: ({ policy }) => ({ creates: [policy], subjects: [policy] }),
  },
  'set-made': {
    body: z.strictObject({ set: subjectOf('set') }),
    about: ({ set }) => ({ creates: [set], subjects: [set] }),
  },
  'set-marked': {
    body: z.strictObject({ set: subjectOf('set'), mark: z.string() }),
    about: ({ set }) => ({ subjects: [set] }),
  },
  'set-photographed': {
    body: z.strictObject({ set: subjectOf('set'), file: AttachmentDigest }),
    about: ({ set, file }) => ({ subjects: [set], files: [file] }),
  },
  'sets-joined': {
    body: z.strictObject({ set: subjectOf('set'), to: subjectOf('set'), mark: z.string() }),
    about: (body) => ({ subjects: [body.set, body.to], links: [follows(body)] }),
  },
  'set-sealed': {
    body: z.strictObject({ set: subjectOf('set') }),
    about: ({ set }) => ({ subjects: [set] }),
  },
  'entry-withdrawn': { body: z.strictObject({ why: z.string() }), about: () => ({}) },
}

const newerKinds: Readonly<Record<string, ToyKind>> = {
  ...kinds,
  'set-polished': {
    body: z.strictObject({ set: subjectOf('set'), mark: z.string() }),
    about: ({ set }) => ({ subjects: [set] }),
  },
}

export interface ToyOptions {
  readonly version?: string
  /** With the kinds of a later version. */
  readonly newer?: boolean
}

export function toyRoad({ version = 'toy 1', newer = false }: ToyOptions = {}): Road {
  const known = newer ? newerKinds : kinds
  return {
    version,
    read: (entry) => readWith(known[entry.kind], entry),
    about: (entry) => aboutWith(known[entry.kind], entry),
    nature: (entry) => ((entry.kind as string) === 'set-sealed' ? 'decision' : 'fact'),
    foldOf: () => toyFold,
    // A set is sealed when it carries a mark, and not twice. The same is only said of any other entry.
    async judge(look, entry) {
      const body = entry.body as unknown as Body
      const states = await look.known([body.set].filter((id) => id !== undefined))
      const state = states.get(body.set) as unknown as ToyState | undefined
      const findings = state?.sealed ? [finding('already-sealed')] : []
      if ((entry.kind as string) === 'set-sealed' && state?.marks.length === 0) findings.push(finding('no-mark'))
      return { policy: 'toy policy', findings, refused: findings.length > 0 }
    },
  }
}

function readWith(kind: ToyKind | undefined, entry: Parameters<Road['read']>[0]): ReadBody {
  if (kind === undefined) return { kind: 'unknownKind' }
  const parsed = kind.body.safeParse(entry.body)
  if (!parsed.success) return { kind: 'unusable', problems: problemsOf(parsed.error, entry.body) }
  return { kind: 'typed', entry: entry as unknown as TypedSent }
}

function aboutWith(kind: ToyKind | undefined, entry: TypedSent): About {
  return {
    creates: [],
    subjects: [],
    mentions: [],
    links: [],
    files: [],
    ...kind?.about(entry.body as unknown as Body),
  }
}

const toyFold: AnyFold = {
  begin: (id): ToyState => ({ id, marks: [], sealed: false }),
  evolve: (state, entry) => evolve(state as ToyState, entry),
  standing: (state) => ((state as ToyState).sealed ? 'sealed' : 'open'),
}

function evolve(state: ToyState, entry: TypedKept): ToyState {
  const { mark } = entry.body as unknown as Body
  const marks = mark === undefined ? state.marks : [...state.marks, mark]
  return { ...state, marks, sealed: state.sealed || (entry.kind as string) === 'set-sealed' }
}

function finding(rule: string): Finding {
  return { rule, weight: 'stop', says: rule, source: { title: 'toy', status: 'proposal' } }
}
