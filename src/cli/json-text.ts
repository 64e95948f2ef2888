import { deeperThan, levelsAllowed } from '#units/depth.ts'

export type JsonText =
  | { readonly kind: 'value'; readonly value: unknown }
  | {
      readonly kind: 'broken'
      /** One line for a person: field, wanted, current. */
      readonly says: string
      /** What came. */
      readonly current: string
    }

/** Reads JSON from outside. What cannot be read comes back with what was wanted and what came. */
export function parseJson(text: string): JsonText {
  const trimmed = text.trim()
  if (trimmed === '') return broken('JSON', 'empty')
  try {
    const value: unknown = JSON.parse(trimmed)
    return deeperThan(value, levelsAllowed)
      ? broken(`at most ${levelsAllowed} levels`, 'deeper')
      : { kind: 'value', value }
  } catch (error) {
    const reason = error instanceof Error ? error.message.replaceAll(/\s+/g, ' ') : 'not JSON'
    return broken('JSON', `${shortened(trimmed)} (${reason})`)
  }
}

function broken(wanted: string, current: string): JsonText {
  const says = `input: wanted ${wanted}, current value is ${current}`
  return { kind: 'broken', says, current: wanted === 'JSON' ? current : `not ${wanted} but ${current}` }
}

function shortened(text: string): string {
  return JSON.stringify(text.length > 40 ? `${text.slice(0, 39)}…` : text)
}
