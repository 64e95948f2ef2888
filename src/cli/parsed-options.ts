import { type ParseArgsConfig, parseArgs } from 'node:util'

type Options = NonNullable<ParseArgsConfig['options']>

/** The options and file names of a command, or null when they are not among those it knows. */
export function parsedOptions<const T extends Options>(args: readonly string[], options: T) {
  try {
    return parseArgs({ args: [...args], allowPositionals: true, options })
  } catch {
    return null
  }
}

/** The number an option gives: undefined when not given, null when it is no finite number. */
export function numberOption(text: string | undefined): number | null | undefined {
  if (text === undefined) return undefined
  const value = Number(text)
  return text.trim() !== '' && Number.isFinite(value) ? value : null
}
