import { writeFile } from 'node:fs/promises'
import { isSubjectOf, parseSubject } from '#road/subject.ts'
import { zplLabel } from '#road/packing/labels/zpl.ts'
import { describeProblem } from '#units/problem.ts'
import { labelOfRound } from '#service/labels/label-of-round.ts'
import { pdfLabel } from '#service/labels/pdf-label.ts'
import { readPrinter, sendToPrinter, wantedPrinter } from '#service/labels/send-to-printer.ts'
import { svgLabel } from '#service/labels/svg-label.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { notKnown, refuse } from './known.ts'
import { onUnit, textOf, type UnitCall } from './on-unit.ts'

const forms = ['text', 'zpl', 'svg', 'pdf'] as const

/** `label ROUND`: the label of a sealed pack, as text, for a label printer, as a picture or a document. */
export function runLabel(args: string[], io: CommandIo): Promise<number> {
  const usage =
    'label ROUND [--stock 76x51] [--as text|zpl|svg|pdf] [--bars] [--dots 8|12] [--copies N] [--out FILE | --print HOST:PORT]'
  const options = {
    stock: 'text',
    as: 'text',
    bars: 'yes',
    dots: 'text',
    copies: 'text',
    out: 'text',
    print: 'text',
  } as const
  return onUnit({ usage, options, mostWords: 1, makes: false, run }, args, io)
}

async function run({ reader, words, flags }: UnitCall, io: CommandIo): Promise<number> {
  const [word = ''] = words
  const round = parseSubject(word.includes(':') ? word : `round:${word}`)
  if (round === undefined || !isSubjectOf('round', round))
    return refuse(io, `round: wanted round:KEY, current value is ${JSON.stringify(word)}`)
  const printer = textOf(flags['print'])
  const asked = textOf(flags['as']) ?? (printer === undefined ? 'text' : 'zpl')
  const form = forms.find((each) => each === asked)
  if (form === undefined || (printer !== undefined && form !== 'zpl'))
    return refuse(
      io,
      `--as: wanted ${printer === undefined ? forms.join(', ') : 'zpl for a printer'}, current value is ${JSON.stringify(asked)}`,
    )
  const copies = Number(textOf(flags['copies']) ?? '1')
  if (!Number.isInteger(copies) || copies < 1 || copies > 20)
    return refuse(
      io,
      `--copies: wanted a whole number from 1 to 20, current value is ${JSON.stringify(flags['copies'])}`,
    )
  const dots = textOf(flags['dots']) ?? '8'
  if (dots !== '8' && dots !== '12')
    return refuse(io, `--dots: wanted 8 or 12 in a mm, current value is ${JSON.stringify(dots)}`)
  const address = printer === undefined ? undefined : readPrinter(printer)
  if (printer !== undefined && address === undefined)
    return refuse(io, `--print: wanted ${wantedPrinter}, current value is ${JSON.stringify(printer)}`)

  const made = await labelOfRound(
    reader,
    { round, stock: textOf(flags['stock']), bars: flags['bars'] === true },
    clock(),
  )
  if (made.is === 'unknown') return notKnown(io, round)
  if (made.is === 'unusable') return refuse(io, describeProblem(made.problem))
  const { text, layout, codes } = made
  const zpl = () => zplLabel(text, layout, { dots: dots === '8' ? 8 : 12, copies })
  if (address !== undefined) {
    const failed = await sendToPrinter(address, zpl())
    await (failed === undefined
      ? io.stdout.write(`sent to ${printer}\n`)
      : io.stderr.write(
          `--print: wanted a printer that takes it, came ${failed}. Switch it on, or check its address.\n`,
        ))
    return failed === undefined ? exit.ok : exit.failed
  }
  const label = {
    text: () => `${[text.title, text.says, text.key, ...text.lines].join('\n')}\n`,
    zpl,
    svg: () => svgLabel(text, layout, codes),
    pdf: () => pdfLabel(text, layout, { codes, copies }),
  }[form]
  const out = textOf(flags['out'])
  if (out === undefined && form === 'pdf')
    return refuse(io, '--out: wanted the name of a file for a PDF, current value is missing')
  const bytes = await label()
  if (out === undefined) await io.stdout.write(String(bytes))
  else await writeFile(out, bytes)
  return exit.ok
}
