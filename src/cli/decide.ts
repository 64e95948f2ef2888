import { describeProblem } from '#units/problem.ts'
import { type DecidedAnswer, decideCase } from '#road/deciding/decide.ts'
import { topics } from '#road/deciding/topics.ts'
import { describeTopic } from '#service/describe-topic.ts'
import { type CommandIo, exit } from './command.ts'
import { runDecideBatch } from './decide-batch.ts'
import { decidedText } from './decide-text.ts'
import { readAsked } from './read-asked.ts'
import { parseJson } from './json-text.ts'
import { readLogFile } from './read-cycle-files.ts'

const usage = 'decide list [--json], decide CASE.json|- [--json|--text], or decide --batch < lines.ndjson'

/**
 * `decide list [--json]`, `decide CASE.json|- [--json|--text]`, `decide --batch`.
 *
 * A case is `{"topic": "...", "given": {...}}`, or a list of them. Exit 0 with the answer on stdout, as JSON unless
 * `--text` asks for words; exit 2 with one line on stderr (field, wanted, current) when a case cannot be used.
 */
export async function runDecide(args: string[], io: CommandIo): Promise<number> {
  const flags = args.filter((arg) => arg.startsWith('--'))
  const [first, ...rest] = args.filter((arg) => !arg.startsWith('--'))
  const flag = flags[0]
  if (first === undefined && flag === '--batch' && flags.length === 1) return runDecideBatch(io)
  const known = flag === undefined || flag === '--json' || flag === '--text'
  if (first === undefined || rest.length > 0 || flags.length > 1 || !known) {
    return refuse(io, `arguments: wanted ${usage}, current value is ${JSON.stringify(args.join(' '))}`)
  }
  if (first === 'list') {
    await io.stdout.write(flag === '--json' ? listAsJson() : listAsText())
    return exit.ok
  }
  const file = await readLogFile(first, io)
  if (file.kind === 'problem') return refuse(io, file.says)
  const parsed = parseJson(file.text.replace(/^\uFEFF/, ''))
  if (parsed.kind === 'broken') return refuse(io, parsed.says)
  return decideAll(parsed.value, flag === '--text', io)
}

async function decideAll(value: unknown, asText: boolean, io: CommandIo): Promise<number> {
  const list = Array.isArray(value)
  const answers: DecidedAnswer[] = []
  for (const [index, each] of (list ? value : [value]).entries()) {
    const place = list ? `[${index}].` : ''
    const asked = readAsked(each)
    const outcome = asked.kind === 'asked' ? decideCase(asked.asked) : asked
    if (outcome.kind === 'unusable') {
      return refuse(io, outcome.problems.map((problem) => place + describeProblem(problem)).join('; '))
    }
    answers.push(outcome.answer)
  }
  const shown = list ? answers : answers[0]
  await io.stdout.write(asText ? answers.map(decidedText).join('\n') : `${JSON.stringify(shown, null, 2)}\n`)
  return exit.ok
}

async function refuse(io: CommandIo, line: string): Promise<number> {
  await io.stderr.write(`${line}\n`)
  return exit.unusableInput
}

function listAsText(): string {
  const width = Math.max(...topics.map(({ topic }) => topic.length))
  return topics.map(({ topic, title }) => `${topic.padEnd(width)}  ${title}\n`).join('')
}

function listAsJson(): string {
  return `${JSON.stringify(topics.map(describeTopic), null, 2)}\n`
}
