import { type SubjectId, type SubjectKind, parseSubject, subjectKinds } from '#road/subject.ts'
import { subjectTitle } from '#road/tracing/subject-title.ts'
import type { Reader } from '#journal/journal.ts'
import type { KnownRow } from '#service/api-types.ts'
import { readRow, rowOf, withDoubts } from '#service/known-row.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { onUnit, textOf, type UnitCall } from './on-unit.ts'

const usage = 'known SUBJECT [--at SEQ] [--json] | known --kind KIND [--standing A,B] [--json]'
const pageSize = 500

/** `known SUBJECT` or `known --kind KIND`: what is known, for people or (`--json`) as JSON, of a kind a line each. */
export function runKnown(args: string[], io: CommandIo): Promise<number> {
  const options = { kind: 'text', standing: 'text', at: 'text', json: 'yes' } as const
  return onUnit({ usage, options, mostWords: 1, makes: false, run: show }, args, io)
}

async function show(call: UnitCall, io: CommandIo): Promise<number> {
  const [word] = call.words
  const kind = textOf(call.flags['kind'])
  if ((word === undefined) === (kind === undefined))
    return refuse(io, 'arguments: wanted a subject or --kind, one of the two')
  if (word !== undefined) return showOne(call, word, io)
  const named = subjectKinds.find((each) => each === kind)
  if (named === undefined)
    return refuse(io, `--kind: wanted one of ${subjectKinds.join(', ')}, current value is ${JSON.stringify(kind)}`)
  return showKind(call, named, io)
}

async function showOne({ reader, flags }: UnitCall, word: string, io: CommandIo): Promise<number> {
  const subject = parseSubject(word)
  if (subject === undefined) return refuse(io, `subject: wanted KIND:KEY, current value is ${JSON.stringify(word)}`)
  const at = textOf(flags['at'])
  if (at !== undefined && !/^[1-9]\d{0,14}$/.test(at)) {
    return refuse(io, `--at: wanted the number of an entry, current value is ${JSON.stringify(at)}`)
  }
  const row = await readRow(reader, subject, at === undefined ? undefined : Number(at))
  if (row === undefined) return notKnown(io, subject)
  const [shown = row] = at === undefined ? await withDoubts(reader, [row], clock()) : [row]
  await io.stdout.write(flags['json'] === true ? `${JSON.stringify(shown, null, 2)}\n` : lineOf(shown))
  return exit.ok
}

async function showKind({ reader, flags }: UnitCall, kind: SubjectKind, io: CommandIo): Promise<number> {
  const standings = textOf(flags['standing'])?.split(',')
  for await (const row of allOfKind(reader, kind, standings)) {
    await io.stdout.write(flags['json'] === true ? `${JSON.stringify(row)}\n` : lineOf(row))
  }
  return exit.ok
}

async function* allOfKind(
  reader: Reader,
  kind: SubjectKind,
  standings: readonly string[] | undefined,
): AsyncGenerator<KnownRow> {
  let after: Awaited<ReturnType<Reader['knownOfKind']>>[number] | undefined
  do {
    const query = {
      limit: pageSize,
      ...(standings === undefined ? {} : { standings }),
      ...(after === undefined ? {} : { after }),
    }
    const rows = await reader.knownOfKind(kind, query)
    yield* await withDoubts(
      reader,
      rows.map((row) => rowOf(kind, row)),
      clock(),
    )
    after = rows.length === pageSize ? rows.at(-1) : undefined
  } while (after !== undefined)
}

function lineOf({ subject, standing, since, state, doubts = [] }: KnownRow): string {
  const against = doubts.length === 0 ? '' : `\tIN DOUBT: ${doubts.map((doubt) => doubt.says).join(' ')}`
  return `${subject}\t${standing}\tsince ${since}\t${subjectTitle(subject, state, () => undefined)}${against}\n`
}

export async function refuse(io: CommandIo, line: string): Promise<number> {
  await io.stderr.write(`${line}\n`)
  return exit.unusableInput
}

export async function notKnown(io: CommandIo, subject: SubjectId): Promise<number> {
  await io.stderr.write(`subject: wanted one that is known, current value is ${JSON.stringify(subject)}\n`)
  return exit.failed
}
