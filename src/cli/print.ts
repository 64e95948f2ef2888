import { writeFile } from 'node:fs/promises'
import { subjectOf } from '#road/subject.ts'
import { loadRecord } from '#service/printing/load-record.ts'
import { pdfOf } from '#service/printing/pdf.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { notKnown, refuse } from './known.ts'
import { onUnit, textOf, type UnitCall } from './on-unit.ts'

/** `print load LOAD --out FILE.pdf`: the record of a load for paper. */
export function runPrint(args: string[], io: CommandIo): Promise<number> {
  return onUnit(
    {
      usage: 'print load LOAD --out FILE.pdf [--by NAME]',
      options: { out: 'text', by: 'text' },
      mostWords: 2,
      makes: false,
      run,
    },
    args,
    io,
  )
}

async function run({ words, flags, ...record }: UnitCall, io: CommandIo): Promise<number> {
  const [what, word = ''] = words
  if (what !== 'load') return refuse(io, `page: wanted load, current value is ${JSON.stringify(what ?? 'missing')}`)
  const out = textOf(flags['out'])
  if (out === undefined)
    return refuse(io, '--out: wanted the file to write, such as load.pdf, current value is missing')
  const id = subjectOf('load').safeParse(word.includes(':') ? word : `load:${word}`)
  if (!id.success) return refuse(io, `load: wanted a load of the record, current value is ${JSON.stringify(word)}`)
  const page = await loadRecord(record, id.data, { by: textOf(flags['by']) ?? 'the command line', now: clock() })
  if (page === undefined) return notKnown(io, id.data)
  await writeFile(out, await pdfOf(page))
  await io.stdout.write(`${out}\n`)
  return exit.ok
}
