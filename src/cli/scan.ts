import type { ScanAnswer, ScanOffer } from '#road/scanning/scan-answer.ts'
import { findScanned } from '#service/find/find-scanned.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { refuse } from './known.ts'
import { onUnit, type UnitCall } from './on-unit.ts'

/** `scan CODE`: what a code says and belongs to; the separator may be written <GS>. */
export function runScan(args: string[], io: CommandIo): Promise<number> {
  return onUnit({ usage: 'scan CODE [--json]', options: { json: 'yes' }, mostWords: 1, makes: false, run }, args, io)
}

async function run({ reader, words, flags }: UnitCall, io: CommandIo): Promise<number> {
  const code = words[0]?.trim() ?? ''
  if (code === '' || code.length > 500)
    return refuse(io, `code: wanted 1 to 500 characters, current number is ${code.length}`)
  const answer = await findScanned(reader, code, clock())
  if (flags['json'] === true) await io.stdout.write(`${JSON.stringify(answer, null, 2)}\n`)
  else if (answer.read.is === 'unusable') {
    const { field, wanted, current, todo } = answer.read.fault
    await io.stderr.write(`${field}: wanted ${wanted}, came ${current}. ${todo}\n`)
  } else await io.stdout.write(asText(answer))
  return answer.read.is === 'unusable' ? exit.unusableInput : exit.ok
}

function asText({ read, found, offers }: ScanAnswer): string {
  const said =
    read.is === 'elements'
      ? read.elements.map(({ identifier, title, data, day }) => `(${identifier}) ${title}\t${day ?? data}`)
      : []
  const hits = found.map(
    ({ subject, standing, title, exact }) => `${exact ? 'found' : 'may be'}\t${subject}\t${standing}\t${title}`,
  )
  const rest = found.length === 0 ? ['found nothing on record'] : []
  const remark = read.is === 'elements' && read.remark !== undefined ? [`caution\t${read.remark}`] : []
  return `${[...said, ...remark, ...hits, ...rest, ...offers.map(offerText)].join('\n')}\n`
}

function offerText(offer: ScanOffer): string {
  switch (offer.record) {
    case 'lot':
      return `may be recorded\tlot ${offer.number}, product ${offer.gtin}${offer.expiresOn === undefined ? '' : `, expires ${offer.expiresOn}`}`
    case 'item':
      return `may be recorded\titem of ${offer.device} with serial number ${offer.serial}`
    case 'device':
      return `may be recorded\tdevice with product number ${offer.gtin}`
  }
}
