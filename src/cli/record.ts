import { invariant } from '#units/invariant.ts'
import type { EntryAnswer } from '#service/api-types.ts'
import { recordEntries, toAnswer } from '#service/entries/record-entries.ts'
import { type CommandIo, exit } from './command.ts'
import { type JsonValue, jsonValues } from './json-values.ts'
import { onUnit, type UnitCall } from './on-unit.ts'

/** A decision that the rules refused; an id that is taken counts as unusable. */
export const exitRefused = 3

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
  for await (const value of jsonValues(io.stdin)) {
    batch.push(value)
    if (batch.length >= batchSize) await flush()
  }
  await flush()
  return exitOf(seen)
}

interface LineAnswer {
  readonly line: number
  readonly answer: EntryAnswer
}

async function recordBatch(call: UnitCall, batch: readonly JsonValue[]): Promise<readonly LineAnswer[]> {
  const values = batch.flatMap((each) => (each.kind === 'value' ? [each.value] : []))
  const outcomes = (await recordEntries(call, values))[Symbol.iterator]()
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
