import { writeFile } from 'node:fs/promises'
import { isSubjectOf, parseSubject, type SubjectId } from '#road/subject.ts'
import { loadRecord } from '#service/printing/load-record.ts'
import { monthReport } from '#service/printing/month-report.ts'
import { pdfOf } from '#service/printing/pdf.ts'
import type { PrintAsked } from '#service/printing/print-parts.ts'
import type { PrintedPage } from '#service/printing/printed-page.ts'
import { recallNotice } from '#service/printing/recall-notice.ts'
import { stepCardPage } from '#service/printing/step-card-page.ts'
import { monthForm } from '#service/read-month.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { notKnown, refuse } from './known.ts'
import { onUnit, textOf, type UnitCall } from './on-unit.ts'

const wanted =
  'load:KEY for its record, recall:KEY for its notice, device:KEY for its step card or month:2026-08 for its quality report'

/** `print SUBJECT --out FILE.pdf`: a page for paper. */
export function runPrint(args: string[], io: CommandIo): Promise<number> {
  return onUnit(
    {
      usage: 'print load:KEY|recall:KEY|device:KEY|month:YYYY-MM --out FILE.pdf [--by NAME] [--use USE]',
      options: { out: 'text', by: 'text', use: 'text' },
      mostWords: 1,
      makes: false,
      run,
    },
    args,
    io,
  )
}

async function run({ words, flags, ...record }: UnitCall, io: CommandIo): Promise<number> {
  const [word = ''] = words
  const out = textOf(flags['out'])
  if (out === undefined)
    return refuse(io, '--out: wanted the file to write, such as load.pdf, current value is missing')
  const subject = parseSubject(word)
  const month = word.startsWith('month:') ? word.slice('month:'.length) : ''
  const asked = { by: textOf(flags['by']) ?? 'the command line', now: clock(), use: textOf(flags['use']) }
  if (monthForm.test(month)) return await write(io, out, await monthReport(record, month, asked))
  const page = subject === undefined ? 'noPage' : await pageOfSubject(record, subject, asked)
  if (page === 'noPage') return refuse(io, `page: wanted ${wanted}, current value is ${JSON.stringify(word)}`)
  if (page === undefined || subject === undefined) return notKnown(io, subject ?? 'load:none')
  return await write(io, out, page)
}

async function write(io: CommandIo, out: string, page: PrintedPage): Promise<number> {
  await writeFile(out, await pdfOf(page))
  await io.stdout.write(`${out}\n`)
  return exit.ok
}

async function pageOfSubject(
  record: Omit<UnitCall, 'words' | 'flags'>,
  subject: SubjectId,
  asked: PrintAsked & { readonly use: string | undefined },
): Promise<PrintedPage | undefined | 'noPage'> {
  if (isSubjectOf('load', subject)) return await loadRecord(record, subject, asked)
  if (isSubjectOf('recall', subject)) return await recallNotice(record, subject, asked)
  if (isSubjectOf('device', subject)) return await stepCardPage(record, subject, asked)
  return 'noPage'
}
