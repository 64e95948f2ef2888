import type { ApiProblem } from '#service/api-types.ts'
import { notJson } from '#service/problems.ts'
import type { CommandIo } from './command.ts'
import { parseJson } from './json-text.ts'
import { linesOf } from './lines.ts'

/** One JSON value of the input, or why there is none. */
export type JsonValue =
  | { readonly kind: 'value'; readonly value: unknown; readonly line: number }
  | { readonly kind: 'broken'; readonly problem: ApiProblem; readonly line: number }

/** The values on a stream: one a line, or one JSON text over many lines. A list counts as the values in it. */
export async function* jsonValues(stdin: CommandIo['stdin']): AsyncGenerator<JsonValue> {
  let whole: string[] | undefined
  let isFirst = true
  for await (const { text, number } of linesOf(stdin)) {
    if (whole !== undefined) whole.push(text)
    else if (text.trim() !== '') {
      const parsed = parseJson(text)
      // A first line that is no JSON by itself begins a text over many lines.
      if (parsed.kind === 'broken' && isFirst) whole = [text]
      else yield* valuesOf(parsed, number)
      isFirst = false
    }
  }
  if (whole !== undefined) yield* valuesOf(parseJson(whole.join('\n')), 1)
}

function* valuesOf(parsed: ReturnType<typeof parseJson>, line: number): Generator<JsonValue> {
  if (parsed.kind === 'broken') yield { kind: 'broken', problem: notJson(parsed.current), line }
  else if (Array.isArray(parsed.value))
    for (const value of parsed.value as unknown[]) yield { kind: 'value', value, line }
  else yield { ...parsed, line }
}
