import { describeProblem } from '#units/problem.ts'
import { decideCase } from '#road/deciding/decide.ts'
import { type CommandIo, exit } from './command.ts'
import { parseJson } from './json-text.ts'
import { linesOf } from './lines.ts'
import { readAsked } from './read-asked.ts'

/**
 * Reads `{"id", "topic", "given"}` a line and writes `{"id", "topic", "decision", "findings", "sources"}` or
 * `{"id", "error"}` a line, in the same order, each as soon as its line has come. A line that cannot be read answers
 * with id null and its number, and the batch goes on.
 */
export async function runDecideBatch(io: CommandIo): Promise<number> {
  let code: number = exit.ok
  for await (const { text, number } of linesOf(io.stdin)) {
    if (text.trim() === '') continue
    const answer = answerTo(text, number)
    if (answer.ours) code = exit.failed
    await io.stdout.write(`${JSON.stringify(answer.line)}\n`)
  }
  return code
}

/** One answer; `ours` when it failed through a mistake of ours, which the exit code must show. */
function answerTo(text: string, number: number): { readonly line: object; readonly ours: boolean } {
  const parsed = parseJson(text)
  const value = parsed.kind === 'value' ? parsed.value : undefined
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    const says = parsed.kind === 'broken' ? parsed.says : 'input: wanted an object {"id", "topic", "given"}'
    return { line: { id: null, error: `line ${number}: ${says}` }, ours: false }
  }
  const { id = null, ...rest } = value as Readonly<Record<string, unknown>>
  try {
    const asked = readAsked(rest)
    const outcome = asked.kind === 'asked' ? decideCase(asked.asked) : asked
    if (outcome.kind === 'unusable') {
      return { line: { id, error: outcome.problems.map(describeProblem).join('; ') }, ours: false }
    }
    return { line: { id, ...outcome.answer }, ours: false }
  } catch (error) {
    return { line: { id, error: `line ${number}: internal failure: ${String(error)}` }, ours: true }
  }
}
