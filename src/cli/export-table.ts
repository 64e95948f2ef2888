import { writeFile } from 'node:fs/promises'
import { PeriodInput, periodOf } from '#service/tables/period.ts'
import { tableForms, tableNamed, tables } from '#service/tables/tables.ts'
import { tableSheet, tableText } from '#service/tables/write-table.ts'
import { type CommandIo, exit } from './command.ts'
import { refuse } from './known.ts'
import { onUnit, textOf, type UnitCall } from './on-unit.ts'

const usage = `export table [NAME] [--as ${tableForms.join('|')}] [--from DAY] [--to DAY] [--out FILE]`

/** `export table`: the tables there are; `export table NAME`: one of them, to a file or to standard output. */
export function runExportTable(args: readonly string[], io: CommandIo): Promise<number> {
  const options = { as: 'text', from: 'text', to: 'text', out: 'text' } as const
  return onUnit({ usage, options, mostWords: 1, makes: false, run }, args, io)
}

async function run({ reader, words, flags }: UnitCall, io: CommandIo): Promise<number> {
  const [name] = words
  if (name === undefined) {
    for (const table of tables)
      await io.stdout.write(`${table.name}\t${table.rowIs}\t${table.columns.map((column) => column.name).join(',')}\n`)
    return exit.ok
  }
  const table = tableNamed(name)
  if (table === undefined)
    return await refuse(
      io,
      `NAME: wanted one of ${tables.map((each) => each.name).join(', ')}, current value is ${JSON.stringify(name)}`,
    )
  const named = textOf(flags['as']) ?? 'csv'
  const form = tableForms.find((each) => each === named)
  if (form === undefined)
    return await refuse(io, `--as: wanted one of ${tableForms.join(', ')}, current value is ${JSON.stringify(named)}`)
  const days = PeriodInput.safeParse({ from: textOf(flags['from']), to: textOf(flags['to']) })
  if (!days.success) return await refuse(io, '--from, --to: wanted a day such as 2026-11-30')
  const [unit] = await reader.knownOfKind('unit', { limit: 1 })
  const asked = { reader, period: periodOf(days.data, unit?.known.timeZone ?? 'UTC') }
  const out = textOf(flags['out'])
  if (form === 'xlsx') {
    if (out === undefined) return await refuse(io, '--out: wanted a file for a sheet, current value is missing')
    const sheet = await tableSheet(table, asked)
    if (sheet.kind === 'tooLong')
      return await refuse(io, `--as xlsx: wanted at most ${sheet.most} rows: take a shorter period, or CSV`)
    await writeFile(out, sheet.bytes, { flag: 'wx' })
    return exit.ok
  }
  if (out !== undefined) await writeFile(out, tableText(table, form, asked), { flag: 'wx' })
  else for await (const piece of tableText(table, form, asked)) await io.stdout.write(piece)
  return exit.ok
}
