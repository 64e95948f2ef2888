import { lookBack, type LookBack } from '#service/wounds/look-back.ts'
import { type CommandIo, exit } from './command.ts'
import type { UnitCall } from './on-unit.ts'
import { investigationNamed } from './wounds-suspects.ts'

/** `wounds investigation`: how it stands, and what entered the record since it was closed. A text is what was wanted. */
export async function investigation({ reader, words, flags }: UnitCall, io: CommandIo): Promise<number | string> {
  const named = words[1] ?? ''
  const id = investigationNamed(named)
  const answer = id === undefined ? undefined : await lookBack(reader, id)
  if (answer === undefined)
    return `wounds investigation: wanted an investigation that is known, current value is ${JSON.stringify(named)}`
  if (flags['json'] === true) await io.stdout.write(`${JSON.stringify(answer, null, 2)}\n`)
  else for (const row of rowsOf(answer)) await io.stdout.write(`${row.join('\t')}\n`)
  return exit.ok
}

function rowsOf({ investigation: known, since }: LookBack): readonly (readonly string[])[] {
  const { id, opened, hypotheses, closed } = known
  return [
    [id, closed === null ? 'open' : 'closed', opened?.why ?? ''],
    ...hypotheses.map(({ says, standing, test }) => [
      'hypothesis',
      standing,
      says,
      ...(test === null ? ['no result of a test'] : [test.result, test.why]),
    ]),
    ...(closed === null ? [] : [['closed', closed.at.slice(0, 10), closed.conclusion, closed.says, closed.changed]]),
    ...sinceRows(since),
  ]
}

function sinceRows(since: LookBack['since']): readonly (readonly string[])[] {
  if (since === null) return []
  const { cases, samples, recalls } = since
  const rows = [
    ...cases.map((each) => ['since the closing', each.case, `other ${each.what.join(' and ')}`]),
    ...samples.map((sample) => ['since the closing', sample, 'taken or read']),
    ...recalls.map((recall) => ['since the closing', recall, 'opened, and reaches packs of these operations']),
  ]
  return rows.length === 0 ? [['since the closing', 'nothing that changes the picture']] : rows
}
