import { readFile } from 'node:fs/promises'
import { v7 } from 'uuid'
import type { Bodies } from '#road/kinds.ts'
import { type SubjectId, parseSubject } from '#road/subject.ts'
import { catalogueColumns, type CatalogueCsv, readCatalogueCsv } from '#road/catalogue/read-catalogue-csv.ts'
import { starterDevices } from '#road/catalogue/starter.ts'
import { readRow } from '#service/known-row.ts'
import { recordEntries, toAnswer } from '#service/entries/record-entries.ts'
import { withoutSignIn } from '#service/sign-in/authorise-entry.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { refuse } from './known.ts'
import { onUnit, textOf, type UnitCall } from './on-unit.ts'

const usage =
  'catalogue import FILE.csv --by PERSON [--partial] | catalogue starter [--only KEY,KEY] --by PERSON | catalogue columns | catalogue list-starter'

type Device = Bodies['device-registered']

/**
 * `catalogue import FILE.csv`: registers the devices of a file, all or none, or with `--partial` the good rows.
 * `catalogue starter`: registers the generic devices. Devices that are known already are left as they are.
 */
export function runCatalogue(args: string[], io: CommandIo): Promise<number> {
  const [what] = args
  if (what === 'columns') return showColumns(io)
  if (what === 'list-starter') return showStarter(io)
  const options = { by: 'text', only: 'text', partial: 'yes' } as const
  return onUnit({ usage, options, mostWords: 2, makes: false, run }, args, io)
}

async function run(call: UnitCall, io: CommandIo): Promise<number> {
  const [what, file] = call.words
  const by = parseSubject(textOf(call.flags['by']) ?? '')
  if (by === undefined || !by.startsWith('person:'))
    return refuse(io, '--by: wanted person:KEY, the one who enters this')
  const author = by as SubjectId<'person'>
  if (what === 'starter') return enter(call, io, { author, devices: chosen(textOf(call.flags['only'])) })
  if (what !== 'import' || file === undefined) return refuse(io, `arguments: wanted ${usage}`)
  const read = readCatalogueCsv(await readFile(file, 'utf8'))
  for (const { row, says } of read.bad) await io.stderr.write(`row ${row}: ${says}\n`)
  if (read.bad.length > 0 && call.flags['partial'] !== true) {
    await io.stderr.write('nothing was written: mend the rows above, or say --partial to take the others\n')
    return exit.unusableInput
  }
  const code = await enter(call, io, { author, devices: read.devices.map((each) => each.body) })
  return code === exit.ok && read.bad.length > 0 ? exit.unusableInput : code
}

function chosen(only: string | undefined): readonly Device[] {
  if (only === undefined) return starterDevices
  const keys = new Set(only.split(',').map((key) => `device:${key.trim()}`))
  return starterDevices.filter((device) => keys.has(device.device))
}

async function enter(
  call: UnitCall,
  io: CommandIo,
  {
    author,
    devices,
  }: {
    readonly author: SubjectId<'person'>
    readonly devices: CatalogueCsv['devices'][number]['body'][] | readonly Device[]
  },
): Promise<number> {
  const known = await Promise.all(devices.map((device) => readRow(call.reader, device.device)))
  const fresh = devices.filter((_, place) => known[place] === undefined)
  const happenedAt = clock()
  const entries = fresh.map((body) => ({
    id: v7(),
    site: call.site,
    kind: 'device-registered',
    happenedAt,
    by: author,
    workstation: 'command line',
    body,
  }))
  const answers = (await recordEntries(call, entries, withoutSignIn)).map(toAnswer)
  const kept = answers.filter((answer) => answer.outcome === 'kept').length
  for (const [place, answer] of answers.entries()) {
    if (answer.outcome !== 'kept') await io.stderr.write(`${fresh[place]?.device}: ${JSON.stringify(answer)}\n`)
  }
  await io.stdout.write(`${kept} devices registered, ${devices.length - fresh.length} were known already\n`)
  return kept === fresh.length ? exit.ok : exit.failed
}

async function showColumns(io: CommandIo): Promise<number> {
  for (const [name, { says }] of Object.entries(catalogueColumns)) await io.stdout.write(`${name}\t${says}\n`)
  return exit.ok
}

async function showStarter(io: CommandIo): Promise<number> {
  for (const { device, name } of starterDevices) await io.stdout.write(`${device.slice(7)}\t${name}\n`)
  return exit.ok
}
