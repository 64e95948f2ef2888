import { isSubjectOf, parseSubject } from '#road/subject.ts'
import type { RecallAnswer } from '#service/api-types.ts'
import { rowOf } from '#service/known-row.ts'
import { readRecall } from '#service/read-recall.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { notKnown, refuse } from './known.ts'
import { onUnit, type UnitCall } from './on-unit.ts'

/** `recall [RECALL] [--json]`: the recalls, or the loads and packs that one reaches and what stands against closing it. */
export function runRecall(args: string[], io: CommandIo): Promise<number> {
  return onUnit(
    { usage: 'recall [RECALL] [--json]', options: { json: 'yes' }, mostWords: 1, makes: false, run: show },
    args,
    io,
  )
}

async function show(call: UnitCall, io: CommandIo): Promise<number> {
  const [word] = call.words
  if (word === undefined) return list(call, io)
  const subject = parseSubject(word)
  if (subject === undefined || !isSubjectOf('recall', subject)) {
    return refuse(io, `recall: wanted recall:KEY, current value is ${JSON.stringify(word)}`)
  }
  const answer = await readRecall(call.reader, subject, clock())
  if (answer === undefined) return notKnown(io, subject)
  await io.stdout.write(call.flags['json'] === true ? `${JSON.stringify(answer, null, 2)}\n` : asText(answer))
  return exit.ok
}

async function list({ reader, flags }: UnitCall, io: CommandIo): Promise<number> {
  const rows = (await reader.knownOfKind('recall', { limit: 1000 })).map((row) => rowOf('recall', row))
  for (const row of rows) {
    const { subject, standing, since, state } = row
    const line =
      flags['json'] === true
        ? JSON.stringify(row)
        : `${subject}\t${standing}\tsince ${since}\t${state.opened?.why ?? ''}`
    await io.stdout.write(`${line}\n`)
  }
  return exit.ok
}

function asText({ recall, standing, because, lastGood, loads, packs, findings }: RecallAnswer): string {
  return [
    `${recall.id}: ${standing}. ${because}`,
    `last good result: ${lastGood ?? 'none on record'}`,
    ...loads.map(({ load, at, duty, why }) => `load\t${load}\t${at}\t${duty}\t${why}`),
    ...packs.map((pack) =>
      [
        'pack',
        pack.round,
        pack.set ?? '-',
        pack.duty,
        pack.place,
        pack.shelf ?? pack.case ?? '-',
        pack.outcome ?? 'not accounted for',
      ].join('\t'),
    ),
    ...findings.map(({ weight, says }) => `${weight}\t${says}`),
    '',
  ].join('\n')
}
