import { type Bits, bitsOf, countBoth } from './bits.ts'
import { type Column, nameOf } from './columns.ts'

/** Two exposures met by all but a tenth of the same cases are taken as one pattern. */
export const nearlySame = 0.9

/** Exposures that the cases cannot tell apart, and the one test that would. */
export interface Alike {
  readonly members: readonly number[]
  readonly identical: boolean
  readonly test: { readonly kind: 'sample' | 'separate' | 'none'; readonly says: string }
}

const sampled = /water|rinse|outlet|tap|bath|soak|tank|instrument|scope|trocar|set|washer|machine/i

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
  return {
    kind: 'separate',
    says: `Let the next cases meet ${nameOf(first)} without ${nameOf(second)}, or the other way round: an infection then speaks for the one that was met.`,
  }
}

/** A thing and the conditions of its own type are not rivals; two things are, and what is of two types. */
export function areRivals(members: readonly Column[]): boolean {
  const types = new Set(members.map(({ type }) => type))
  const things = new Set(members.flatMap(({ id }) => id ?? []))
  return types.size > 1 || things.size > 1
}
