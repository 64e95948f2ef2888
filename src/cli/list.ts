import { readFile } from 'node:fs/promises'
import { isSubjectOf, parseSubject } from '#road/subject.ts'
import { formatOf, listFormats } from '#road/list-import/format.ts'
import { ListMapping } from '#road/list-import/mapping.ts'
import type { ListPreviewRow } from '#service/exchange-answers.ts'
import { computeInWorkers } from '#service/compute/compute.ts'
import { previewList, recordList } from '#service/list-import/list-import.ts'
import { secondsForList } from '#service/list-import/read-within.ts'
import { withoutSignIn } from '#service/sign-in/authorise-entry.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { parseJson } from './json-text.ts'
import { refuse } from './known.ts'
import { onUnit, textOf, type UnitCall } from './on-unit.ts'

const usage = `list read FILE [--format ${listFormats.join('|')}] [--mapping FILE.json] [--json] [--confirm DIGEST --by PERSON]`

/** Some lines could not be read, or the record is another than the one that was shown. */
const exitNotAll = 3

/**
 * `list read FILE`: shows what an operating list of another system would book, move and cancel, line by line, and records
 * nothing. `--confirm` with the digest that it showed records just that. Who a patient is goes nowhere by this way.
 */
export function runList(args: string[], io: CommandIo): Promise<number> {
  const options = { format: 'text', mapping: 'text', json: 'yes', confirm: 'text', by: 'text' } as const
  return onUnit({ usage, options, mostWords: 2, makes: false, run }, args, io)
}

async function run(call: UnitCall, io: CommandIo): Promise<number> {
  // A thread of its own: a calendar that has no end is stopped, which could not be done on the spot.
  const compute = computeInWorkers({ workers: 1, secondsAllowed: secondsForList })
  try {
    return await readOrConfirm({ ...call, compute }, io)
  } finally {
    await compute.close()
  }
}

async function readOrConfirm(call: UnitCall, io: CommandIo): Promise<number> {
  const [what, file] = call.words
  if (what !== 'read' || file === undefined) return await refuse(io, `arguments: wanted ${usage}`)
  const text = await readFile(file, 'utf8')
  const named = textOf(call.flags['format'])
  const format = named === undefined ? formatOf(file, text) : listFormats.find((each) => each === named)
  if (format === undefined)
    return await refuse(io, `--format: wanted ${listFormats.join(', ')}, current value is ${JSON.stringify(named)}`)
  const mapping = await mappingFrom(textOf(call.flags['mapping']))
  if (typeof mapping === 'string') return await refuse(io, mapping)
  const asked = { format, text, mapping }
  const digest = textOf(call.flags['confirm'])
  if (digest !== undefined) return await confirm(call, io, { ...asked, digest })
  const preview = await previewList(call, asked, clock())
  if (call.flags['json'] === true) await io.stdout.write(`${JSON.stringify(preview, null, 2)}\n`)
  else {
    for (const row of preview.rows) await io.stdout.write(`${lineOf(row)}\n`)
    const left = preview.identities > 0 ? ` Who the patient is, in ${preview.identities}, is left out.` : ''
    await io.stdout.write(
      `\n${preview.toRecord} to record. Nothing was written.${left}\n` +
        (preview.toRecord > 0 ? `To record just this: --confirm ${preview.digest} --by PERSON\n` : ''),
    )
  }
  return preview.rows.some(({ act }) => act === 'cannot') ? exitNotAll : exit.ok
}

async function mappingFrom(file: string | undefined): Promise<ListMapping | string | undefined> {
  if (file === undefined) return undefined
  const read = parseJson(await readFile(file, 'utf8'))
  if (read.kind === 'broken') return `--mapping: ${read.says}`
  const parsed = ListMapping.safeParse(read.value)
  return parsed.success ? parsed.data : `--mapping: ${parsed.error.issues.map(({ message }) => message).join('; ')}`
}

async function confirm(
  call: UnitCall,
  io: CommandIo,
  asked: Parameters<typeof previewList>[1] & { readonly digest: string },
): Promise<number> {
  const by = parseSubject(textOf(call.flags['by']) ?? '')
  if (by === undefined || !isSubjectOf('person', by))
    return await refuse(io, '--by: wanted person:KEY, the one who confirms this')
  const done = await recordList(call, { ...asked, by }, { now: clock(), authorise: withoutSignIn, identities: null })
  if (done.kind !== 'recorded') {
    const says =
      done.kind === 'busy' ? 'another list is being recorded' : `what it shows now has the digest ${done.digest}`
    await io.stderr.write(`--confirm: wanted what was shown: ${says}. Look at it again. Nothing was written.\n`)
    return exitNotAll
  }
  const { rows, identitiesLeftOut } = done.answer
  for (const row of rows)
    await io.stdout.write(
      `line ${row.line}: ${row.act} ${row.case ?? ''} ${row.outcome} ${row.says.join('; ')}`.trimEnd() + '\n',
    )
  if (identitiesLeftOut > 0) await io.stdout.write(`Who the patient is was left out of ${identitiesLeftOut}.\n`)
  return rows.every(({ outcome }) => outcome === 'kept' || outcome === 'alreadyKept') ? exit.ok : exitNotAll
}

function lineOf({ line, act, ref, case: id, after, before, says }: ListPreviewRow): string {
  const booking = after ?? before
  const what =
    booking === null ? '' : `${booking.plannedAt} ${booking.theatre}, ${booking.procedure}, ${booking.surgeon}`
  const from = act === 'move' && before !== null ? ` (was ${before.plannedAt} ${before.theatre})` : ''
  const why = says.length === 0 ? '' : `: ${says.join('; ')}`
  return `line ${line}: ${act} ${[ref, id, what].filter((part) => part !== null && part !== '').join(' ')}${from}${why}`
}
