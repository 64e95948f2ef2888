import { type Bits, bitsOf, countBoth } from './bits.ts'
import { type Column, nameOf } from './columns.ts'

/** Two exposures met by all but a tenth of the same cases are taken as one pattern. */
export const nearlySame = 0.9

/**
 * What would tell them apart: a sample; the packs that only one of two past runs held; both measures done from now on;
 * one of them mended or taken from use before the other; or nothing, where nothing needs telling apart.
 */
export const tellingTests = ['sample', 'packs', 'doBoth', 'mendOne', 'none'] as const
export type TellingTest = (typeof tellingTests)[number]

/** Exposures that the cases cannot tell apart, and the one test that would. */
export interface Alike {
  readonly members: readonly number[]
  readonly identical: boolean
  readonly test: { readonly kind: TellingTest; readonly says: string }
}

const sampled = /water|rinse|outlet|tap|bath|soak|tank|instrument|scope|trocar|set|washer|machine|store|shelf/i
/** One run that is over: it cannot be met again, but its packs can be looked at. */
const past: ReadonlySet<string> = new Set(['load', 'wash'])
const missed = 'missedPrevention'

/**
 * Groups of columns with the same pattern, or nearly so, each column in one group only, the first being the best ranked.
 * @param ranked columns in the order of the ranking, only those worth telling apart.
 */
export function alikeGroups(ranked: readonly number[], columns: readonly Column[], cases: number): readonly Alike[] {
  const bits = new Map(ranked.map((index) => [index, bitsOf(columns[index]?.places ?? [], cases)] as const))
  const taken = new Set<number>()
  const groups: Alike[] = []
  for (const lead of ranked) {
    if (taken.has(lead)) continue
    const shares = ranked
      .filter((other) => other !== lead && !taken.has(other))
      .map((other) => ({ other, share: overlap(bits.get(lead), bits.get(other)) }))
      .filter(({ share }) => share >= nearlySame)
    if (shares.length === 0) continue
    const members = [lead, ...shares.map(({ other }) => other)]
    for (const member of members) taken.add(member)
    groups.push({ members, identical: shares.every(({ share }) => share === 1), test: testFor(members, columns) })
  }
  return groups
}

/** Cases that met both, of those that met either. */
function overlap(a: Bits | undefined, b: Bits | undefined): number {
  if (a === undefined || b === undefined) return 0
  const both = countBoth(a, b)
  return both / (countBoth(a, a) + countBoth(b, b) - both)
}

function testFor(members: readonly number[], columns: readonly Column[]): Alike['test'] {
  const named = members.flatMap((index) => columns[index] ?? [])
  const [first, second] = named
  if (first === undefined || second === undefined || !areRivals(named))
    return { kind: 'none', says: 'One thing and its condition: nothing needs telling apart.' }
  const thing = named.find((column) => column.id !== null && sampled.test(column.type))
  const others = named.filter((column) => column !== thing && column.type !== thing?.type).map(nameOf)
  if (thing !== undefined && others.length > 0)
    return {
      kind: 'sample',
      says: `Sample ${nameOf(thing)}: growth of the organism of the wounds speaks for it, none against it and for ${others.join(', ')}.`,
    }
  if (named.every(({ type }) => past.has(type)))
    return {
      kind: 'packs',
      says: `Look at the packs that were in ${nameOf(first)} and not in ${nameOf(second)}, or the other way round: those on the shelf, and the patients who had them.`,
    }
  // No patient goes without a measure, or meets what is suspected, for the sake of a comparison.
  if (named.every(({ type }) => type === missed))
    return {
      kind: 'doBoth',
      says: 'Do both from now on. Only earlier cases in which one was missed without the other could tell them apart.',
    }
  const mended = named.find(({ type }) => type === missed) ?? first
  const left = named.find((column) => column !== mended) ?? second
  return {
    kind: 'mendOne',
    says: `Put right ${nameOf(mended)}, or take it from use, before the other and watch: infections that go on speak for ${nameOf(left)}.`,
  }
}

/** A thing and the conditions of its own type are not rivals; two things are, and what is of two types. */
export function areRivals(members: readonly Column[]): boolean {
  const types = new Set(members.map(({ type }) => type))
  const things = new Set(members.flatMap(({ id }) => id ?? []))
  return types.size > 1 || things.size > 1
}
