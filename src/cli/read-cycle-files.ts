import { decodeLog } from '#workings/steam/decode-log.ts'
import { readFile, stat } from 'node:fs/promises'
import type { z } from 'zod'
import { describeProblem, problemsOf } from '#units/problem.ts'
import { longestLog } from '#workings/steam/log-text.ts'
import type { CommandIo } from './command.ts'
import { parseJson } from './json-text.ts'

/** A text that was read, or one line that says why it was not. */
export type TextOrProblem =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'problem'; readonly says: string }

/** Reads a log from a file, or from standard input for '-'; refuses what is too long before it fills the memory. */
export async function readLogFile(file: string, io: CommandIo): Promise<TextOrProblem> {
  return file === '-' ? readStream(io) : readTextFile(file)
}

async function readTextFile(file: string): Promise<TextOrProblem> {
  try {
    const { size } = await stat(file)
    if (size > longestLog) return tooLong(file, `${size} bytes`)
    return { kind: 'text', text: decodeLog(await readFile(file)) }
  } catch (error) {
    const why = error instanceof Error && 'code' in error ? String(error.code) : 'it cannot be read'
    return {
      kind: 'problem',
      says: `file: wanted a file that can be read, current value is ${JSON.stringify(file)} (${why})`,
    }
  }
}

async function readStream(io: CommandIo): Promise<TextOrProblem> {
  const chunks: Uint8Array[] = []
  let size = 0
  for await (const chunk of io.stdin) {
    const bytes = typeof chunk === 'string' ? Buffer.from(chunk) : chunk
    size += bytes.length
    if (size > longestLog) return tooLong('standard input', `more than ${longestLog} bytes`)
    chunks.push(bytes)
  }
  return { kind: 'text', text: decodeLog(Buffer.concat(chunks)) }
}

function tooLong(what: string, current: string): TextOrProblem {
  return {
    kind: 'problem',
    says: `log: wanted at most ${longestLog} bytes (cut the cycle out of ${what}), current value is ${current}`,
  }
}

/** Reads a JSON file and checks it; `what` names it in the line that says what is wrong. */
export async function readJsonFile<T>(
  file: string,
  what: string,
  schema: z.ZodType<T>,
): Promise<{ kind: 'value'; value: T } | { kind: 'problem'; says: string }> {
  const read = await readTextFile(file)
  if (read.kind === 'problem') return { kind: 'problem', says: read.says.replace(/^file/, what) }
  const parsed = parseJson(read.text.replace(/^\uFEFF/, ''))
  if (parsed.kind === 'broken') return { kind: 'problem', says: `${what} ${file}: ${parsed.says}` }
  const checked = schema.safeParse(parsed.value)
  if (!checked.success)
    return {
      kind: 'problem',
      says: `${what} ${file}: ${problemsOf(checked.error, parsed.value).map(describeProblem).join('; ')}`,
    }
  return { kind: 'value', value: checked.data }
}
