import type { Suspects } from '#service/api-types.ts'
import { words } from '../../words/words.ts'
import { shownP } from './shown-p.ts'

type Row = Suspects['ranking']['ranked'][number]

/** An exposure in the words of the unit: its kind and the title of what it is. */
export function nameOfExposure(
  row: Pick<Row, 'type' | 'id' | 'condition' | 'name'>,
  titles: Readonly<Record<string, string>>,
): string {
  const types: Readonly<Record<string, string>> = words.wounds.exposures.types
  const conditions: Readonly<Record<string, string>> = words.wounds.exposures.conditions
  const preventions: Readonly<Record<string, string>> = words.wounds.preventions
  const type = types[row.type] ?? row.type
  if (row.condition !== null) return `${type}: ${conditions[row.condition] ?? row.condition}`
  if (row.id === null) return row.name
  if (row.type === 'condition') return conditions[row.id] ?? row.id
  if (row.type === 'missedPrevention') return `${type}: ${preventions[row.id] ?? row.id}`
  const title = titles[row.id] ?? row.id
  // A load is titled "Load a-0757" already.
  return title.startsWith(type) ? title : `${type}: ${title}`
}

/** A member of a group that cannot be told apart, which the ranking gives by its own name. */
export function nameOfMember(member: string, { ranking, titles }: Pick<Suspects, 'ranking' | 'titles'>): string {
  const row = ranking.ranked.find((each) => each.name === member)
  return row === undefined ? member : nameOfExposure(row, titles)
}

/** The level that the service ranks at. */
const associationLevel = 0.05

/** What may be said, in the words of the unit. */
export function conclusionOf({ ranking, titles }: Pick<Suspects, 'ranking' | 'titles'>): string {
  const w = words.wounds.suspects
  const [first] = ranking.ranked
  if (first === undefined) return w.nothingVaries
  const p = shownP(first.familyWiseP)
  const group = ranking.alike[first.alike === null ? -1 : first.alike - 1]
  if (ranking.conclusion === 'association') return w.goesWith(nameOfExposure(first, titles), p, ranking.compared)
  if (first.familyWiseP > associationLevel || group === undefined)
    return w.maybeChance(nameOfExposure(first, titles), p, ranking.infected, ranking.compared)
  return w.oneOf(group.members.map((member) => nameOfMember(member, { ranking, titles })).join(', '), p)
}
