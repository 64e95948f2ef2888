import { invariant } from '#units/invariant.ts'
import type { EntryAnswer } from '#service/api-types.ts'
import { recordEntries, toAnswer } from '#service/entries/record-entries.ts'
import { withoutSignIn } from '#service/sign-in/authorise-entry.ts'
import { type CommandIo, exit } from './command.ts'
import { type JsonValue, jsonValues } from './json-values.ts'
import { onUnit, type UnitCall } from './on-unit.ts'

/** A decision that the rules refused; an id that is taken counts as unusable. */
export const exitRefused = 3

const notAnEntry = {
  title: 'The input is not JSON',
  detail: 'Standard input holds something that is no JSON text. The problem names where.',
  remedy:
    'Send each entry as a JSON object on a line of its own, or all of them as one JSON list, in UTF-8. Nothing was written of this line; docs/reference/road/entries.md names what an entry holds.',
} as const

const nothingHeard =
  'input: wanted at least one entry as JSON on standard input, current value is empty. Nothing was written. ' +
  'Send entries a line each, or as one JSON list: nilgrowth record < entries.ndjson\n'

/** So many entries share their commits, and no more are held in memory. */
const batchSize = 200

/**
 * `record`: entries on standard input, a line each or one JSON text; outcomes on standard output, a line each in the
 * same order. Exit 0 all kept, 3 when any was refused, 2 when any could not be used.
 */
export function runRecord(args: string[], io: CommandIo): Promise<number> {
  return onUnit({ usage: 'record < entries.ndjson', mostWords: 0, makes: true, run: recordAll }, args, io)
}

async function recordAll(call: UnitCall, io: CommandIo): Promise<number> {
  const seen = new Set<EntryAnswer['outcome']>()
  let batch: JsonValue[] = []
  const flush = async (): Promise<void> => {
    for (const { answer, line } of await recordBatch(call, batch)) {
      seen.add(answer.outcome)
      await io.stdout.write(`${JSON.stringify({ line, ...answer })}\n`)
    }
    batch = []
  }
  let heard = false
  for await (const value of jsonValues(io.stdin)) {
    heard = true
    batch.push(value.kind === 'broken' ? { ...value, problem: { ...value.problem, ...notAnEntry } } : value)
    if (batch.length >= batchSize) await flush()
  }
  await flush()
  if (!heard) {
    await io.stderr.write(nothingHeard)
    return exit.unusableInput
  }
  return exitOf(seen)
}

interface LineAnswer {
  readonly line: number
  readonly answer: EntryAnswer
}

async function recordBatch(call: UnitCall, batch: readonly JsonValue[]): Promise<readonly LineAnswer[]> {
  const values = batch.flatMap((each) => (each.kind === 'value' ? [each.value] : []))
  const outcomes = (await recordEntries(call, values, withoutSignIn))[Symbol.iterator]()
  return batch.map((each) => {
    if (each.kind === 'broken') return { line: each.line, answer: { outcome: 'unusable', problem: each.problem } }
    const outcome = outcomes.next().value
    invariant(outcome !== undefined, 'each value has an outcome')
    return { line: each.line, answer: toAnswer(outcome) }
  })
}

function exitOf(outcomes: ReadonlySet<EntryAnswer['outcome']>): number {
  if (outcomes.has('unusable') || outcomes.has('idTaken')) return exit.unusableInput
  return outcomes.has('refused') ? exitRefused : exit.ok
}
