import { deeperThan, levelsAllowed } from '#units/depth.ts'

export type JsonText =
  | { readonly kind: 'value'; readonly value: unknown }
  | { readonly kind: 'broken'; readonly says: string }

/** Reads JSON from outside; what cannot be read comes back as one line: field, wanted, current. */
export function parseJson(text: string): JsonText {
  const trimmed = text.trim()
  if (trimmed === '') return { kind: 'broken', says: 'input: wanted JSON, current value is empty' }
  try {
    const value: unknown = JSON.parse(trimmed)
    return deeperThan(value, levelsAllowed)
      ? { kind: 'broken', says: `input: wanted at most ${levelsAllowed} levels, current value is deeper` }
      : { kind: 'value', value }
  } catch (error) {
    const reason = error instanceof Error ? error.message.replaceAll(/\s+/g, ' ') : 'not JSON'
    return { kind: 'broken', says: `input: wanted JSON, current value is ${shortened(trimmed)} (${reason})` }
  }
}

function shortened(text: string): string {
  return JSON.stringify(text.length > 40 ? `${text.slice(0, 39)}…` : text)
}
