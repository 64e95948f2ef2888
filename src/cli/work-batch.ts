import { describeProblem } from '#units/problem.ts'
import { findWorking } from '#workings/registry.ts'
import { type CommandIo, exit } from './command.ts'
import { parseJson } from './json-text.ts'
import { linesOf } from './lines.ts'
import { unknownWorking } from './unknown-working.ts'

interface Answer {
  readonly id: unknown
  readonly output?: unknown
  readonly error?: string
}

/**
 * Reads `{"id", "working", "input"}` a line and writes `{"id", "output"}` or `{"id", "error"}` a line, in the same order,
 * each as soon as its line has come. A line that cannot be read answers with id null and its number, and the batch goes on.
 */
export async function runBatch(io: CommandIo): Promise<number> {
  let code: number = exit.ok
  for await (const { text, number } of linesOf(io.stdin)) {
    if (text.trim() === '') continue
    const { answer, ours } = answerTo(text, number)
    if (ours) code = exit.failed
    await io.stdout.write(`${JSON.stringify(answer)}\n`)
  }
  return code
}

/** One answer; `ours` when it failed through a mistake of ours, which the exit code must show. */
function answerTo(text: string, number: number): { answer: Answer; ours: boolean } {
  const parsed = parseJson(text)
  if (parsed.kind === 'broken') return { answer: { id: null, error: `line ${number}: ${parsed.says}` }, ours: false }
  const request = parsed.value
  if (typeof request !== 'object' || request === null || Array.isArray(request)) {
    const error = `line ${number}: input: wanted an object {"id", "working", "input"}, current value is ${text.trim().slice(0, 80)}`
    return { answer: { id: null, error }, ours: false }
  }
  const id: unknown = Reflect.get(request, 'id') ?? null
  try {
    return { answer: { id, ...outcome(Reflect.get(request, 'working'), Reflect.get(request, 'input')) }, ours: false }
  } catch (error) {
    return { answer: { id, error: `line ${number}: internal failure: ${String(error)}` }, ours: true }
  }
}

function outcome(id: unknown, input: unknown): { output: unknown } | { error: string } {
  const working = typeof id === 'string' ? findWorking(id) : undefined
  if (working === undefined) return { error: unknownWorking(id) }
  const result = working.run(input)
  if (result.kind === 'unusable') return { error: result.problems.map(describeProblem).join('; ') }
  return { output: result.output }
}
