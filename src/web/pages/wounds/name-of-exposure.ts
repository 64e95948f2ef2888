import type { Suspects } from '#service/api-types.ts'
import { words } from '../../words/words.ts'

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
  return `${type}: ${titles[row.id] ?? row.id}`
}
