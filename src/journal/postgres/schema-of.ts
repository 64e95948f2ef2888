import type { Place } from '../place.ts'

/** The schema that holds the tables. Only plain names, so that none has to be quoted anywhere. */
export function schemaOf(place: Extract<Place, { kind: 'postgres' }>): string {
  const schema = place.schema ?? 'nilgrowth'
  if (/^[a-z][a-z0-9_]{0,62}$/.test(schema)) return schema
  throw new RangeError(
    `Cannot use the schema as its name must be small letters, digits and "_": current name is ${JSON.stringify(schema)}`,
  )
}
