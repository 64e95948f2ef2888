import { describeProblem } from '#units/problem.ts'
import { findWorking, workings } from '#workings/registry.ts'
import type { Working } from '#workings/working.ts'
import { type CommandIo, exit } from './command.ts'
import { parseJson } from './json-text.ts'
import { unknownWorking } from './unknown-working.ts'
import { runBatch } from './work-batch.ts'
import { describeWorking } from '#service/describe-working.ts'

const usage = 'work list [--json], work ID < input.json, or work --batch < lines.ndjson'

/**
 * `work list [--json]`, `work ID`, `work --batch`.
 *
 * Exit 0 with JSON on stdout; exit 2 with one line on stderr (field, wanted, current) when the input is unusable.
 */
export async function runWork(args: string[], io: CommandIo): Promise<number> {
  const [first, ...rest] = args
  const flag = rest[0] ?? ''
  if (first === 'list' && (rest.length === 0 || (rest.length === 1 && flag === '--json'))) {
    await io.stdout.write(flag === '--json' ? listAsJson() : listAsText())
    return exit.ok
  }
  if (first === '--batch' && rest.length === 0) return runBatch(io)
  if (first === undefined || rest.length > 0) {
    return refuse(io, `arguments: wanted ${usage}, current value is ${JSON.stringify(args.join(' '))}`)
  }
  const working = findWorking(first)
  if (working === undefined) return refuse(io, unknownWorking(first))
  return runOne(working, io)
}

async function runOne(working: Working, io: CommandIo): Promise<number> {
  const text = await textOf(io.stdin)
  const parsed = parseJson(text)
  if (parsed.kind === 'broken') return refuse(io, parsed.says)
  const result = working.run(parsed.value)
  if (result.kind === 'unusable') return refuse(io, result.problems.map(describeProblem).join('; '))
  await io.stdout.write(`${JSON.stringify(result.output, null, 2)}\n`)
  return exit.ok
}

async function refuse(io: CommandIo, line: string): Promise<number> {
  await io.stderr.write(`${line}\n`)
  return exit.unusableInput
}

async function textOf(stdin: CommandIo['stdin']): Promise<string> {
  const decoder = new TextDecoder()
  let text = ''
  for await (const chunk of stdin) text += typeof chunk === 'string' ? chunk : decoder.decode(chunk, { stream: true })
  return text + decoder.decode()
}

function listAsText(): string {
  const width = Math.max(...workings.map(({ id }) => id.length))
  return workings.map(({ id, title }) => `${id.padEnd(width)}  ${title}\n`).join('')
}

function listAsJson(): string {
  return `${JSON.stringify(workings.map(describeWorking), null, 2)}\n`
}
