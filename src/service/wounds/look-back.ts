import { unitPolicy } from '#road/gather.ts'
import type { Instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import { policyFrom } from '#road/policy.ts'
import type { SubjectId } from '#road/subject.ts'
import { recallExtent } from '#road/tracing/recall-extent.ts'
import type { Look } from '#road/look.ts'
import { comparedCase } from './compared-case.ts'
import { type InvestigationList, investigationList, type InvestigationReader } from './investigation-list.ts'
import { readExposures } from './read-exposures.ts'
import type { WoundReader } from './read-lines.ts'
import { samplesBeside, samplesOf } from './samples-beside.ts'

/** What of an operation is another on record now: what became of its wound, or all else that the comparison rests on. */
export type CaseChange = 'wound' | 'exposures'

/** What entered the record since an investigation was closed and makes its picture another. */
export interface SinceClosing {
  readonly closedAt: Instant
  readonly cases: readonly { readonly case: SubjectId<'case'>; readonly what: readonly CaseChange[] }[]
  readonly samples: readonly SubjectId<'sample'>[]
  /** Recalls that were opened, or opened again, and reach a pack that was used in one of the operations. */
  readonly recalls: readonly SubjectId<'recall'>[]
}

/** An investigation as its answer stands: once it is closed, as it was known then, and apart from it what came after. */
export interface LookBack {
  readonly investigation: KnownOf<'investigation'>
  readonly since: SinceClosing | null
}

/** Undefined: there is no such investigation. */
export async function lookBack(
  reader: InvestigationReader & Look,
  id: SubjectId<'investigation'>,
): Promise<LookBack | undefined> {
  const then = await investigationList(reader, id, 'closing')
  if (then === undefined) return undefined
  const { investigation, closedAt } = then
  const now = closedAt === null ? undefined : await investigationList(reader, id, 'now')
  if (closedAt === null || now === undefined) return { investigation, since: null }
  const [cases, samples, recalls] = await Promise.all([
    casesChanged(then, now),
    samplesChanged(then, now),
    recallsSince(reader, then),
  ])
  // A closing that was corrected says its later words, about what was known at the first.
  const { closed } = now.investigation
  return { investigation: { ...investigation, closed }, since: { closedAt, cases, samples, recalls } }
}

async function casesChanged(then: InvestigationList, now: InvestigationList): Promise<SinceClosing['cases']> {
  const [before, after] = await Promise.all([figuresOf(then), figuresOf(now)])
  const ids = [...new Set([...before.keys(), ...after.keys()])].sort()
  return ids.flatMap((id) => {
    const [a, b] = [before.get(id), after.get(id)]
    const what = (['wound', 'exposures'] as const).filter((part) => a?.[part] !== b?.[part])
    return what.length === 0 ? [] : [{ case: id, what }]
  })
}

/** All that the comparison rests on, of each operation, as texts that can be compared. */
async function figuresOf({
  reader,
  list,
}: InvestigationList): Promise<ReadonlyMap<SubjectId<'case'>, Readonly<Record<CaseChange, string>>>> {
  const { lines } = await readExposures(reader, list, list.lines)
  return new Map(
    lines.map((exposed) => {
      const { exposures, infected, onset, depth, organism, ...operation } = comparedCase(exposed)
      const { infection, unjudged } = exposed.line
      const wound = [infected, onset, depth, organism, unjudged, infection?.wound, infection?.counted]
      // When a thing was met is shown and not compared.
      const met = exposures.map(({ type, id, amount, flags }) => ({ type, id, amount, flags }))
      return [exposed.line.case, { wound: JSON.stringify(wound), exposures: JSON.stringify([operation, met]) }]
    }),
  )
}

async function samplesChanged(then: InvestigationList, now: InvestigationList): Promise<SinceClosing['samples']> {
  const rows = async (list: InvestigationList) =>
    new Map(samplesBeside(await samplesOf(list)).map((sample) => [sample.sample, JSON.stringify(sample)]))
  const [before, after] = await Promise.all([rows(then), rows(now)])
  return [...new Set([...before.keys(), ...after.keys()])].filter((id) => before.get(id) !== after.get(id)).sort()
}

async function recallsSince(reader: Look, then: InvestigationList): Promise<SinceClosing['recalls']> {
  const standing = async (of: WoundReader) =>
    new Map((await of.standing('recall', ['open', 'closed'])).map((recall) => [recall.id, recall.closed === null]))
  const [before, after] = await Promise.all([standing(then.reader), standing(reader)])
  const opened = [...after].flatMap(([id, open]) => (!before.has(id) || (open && before.get(id) === false) ? [id] : []))
  const policy = policyFrom((await reader.known([unitPolicy])).get(unitPolicy))
  const extents = await Promise.all(opened.map((recall) => recallExtent(reader, recall, policy)))
  const cases = new Set<string>(then.list.lines.map((line) => line.case))
  return extents.flatMap((extent) =>
    extent?.packs.some((pack) => pack.case !== null && cases.has(pack.case)) === true ? [extent.recall.id] : [],
  )
}
