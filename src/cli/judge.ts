import { judgeEntry } from '#service/entries/judge-entry.ts'
import { type CommandIo, exit } from './command.ts'
import { jsonValues } from './json-values.ts'
import { onUnit, type UnitCall } from './on-unit.ts'
import { exitRefused } from './record.ts'

/**
 * `judge`: what the rules would say of entries now, a line each; nothing is written. Exit 0, 3 when any would be
 * refused, 2 when any cannot be used.
 */
export function runJudge(args: string[], io: CommandIo): Promise<number> {
  return onUnit({ usage: 'judge < entries.ndjson', mostWords: 0, makes: false, run: judgeAll }, args, io)
}

async function judgeAll(call: UnitCall, io: CommandIo): Promise<number> {
  let unusable = false
  let refused = false
  for await (const value of jsonValues(io.stdin)) {
    const judged = value.kind === 'broken' ? { problem: value.problem } : await judgeEntry(call, value.value)
    if ('problem' in judged) unusable = true
    else refused ||= judged.refused
    await io.stdout.write(`${JSON.stringify({ line: value.line, ...judged })}\n`)
  }
  if (unusable) return exit.unusableInput
  return refused ? exitRefused : exit.ok
}
