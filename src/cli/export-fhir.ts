import { writeFile } from 'node:fs/promises'
import { fhirForms, fhirText } from '#service/fhir/export-fhir.ts'
import { fhirTypes } from '#service/fhir/resource.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { refuse } from './known.ts'
import { onUnit, textOf, type UnitCall } from './on-unit.ts'

const usage = `export fhir [${fhirTypes.join('|')}] [--as ${fhirForms.join('|')}] [--base URL] [--out FILE]`

/** `export fhir`: the record in HL7 FHIR R4, or the resources of one type, to a file or to standard output. */
export function runExportFhir(args: readonly string[], io: CommandIo): Promise<number> {
  const options = { as: 'text', base: 'text', out: 'text' } as const
  return onUnit({ usage, options, mostWords: 1, makes: false, run }, args, io)
}

async function run({ reader, words: [named], flags }: UnitCall, io: CommandIo): Promise<number> {
  const types = named === undefined ? fhirTypes : fhirTypes.filter((type) => type === named)
  if (types.length === 0)
    return await refuse(io, `TYPE: wanted one of ${fhirTypes.join(', ')}, current value is ${JSON.stringify(named)}`)
  const as = textOf(flags['as']) ?? 'bundle'
  const form = fhirForms.find((each) => each === as)
  if (form === undefined)
    return await refuse(io, `--as: wanted ${fhirForms.join(' or ')}, current value is ${JSON.stringify(as)}`)
  // Where nothing is said of a service, the addresses lead nowhere, and say so.
  const base = textOf(flags['base']) ?? 'http://nilgrowth.invalid/fhir/R4'
  const pieces = fhirText(reader, form, { types, base, now: clock() })
  const out = textOf(flags['out'])
  if (out !== undefined) await writeFile(out, pieces, { flag: 'wx' })
  else for await (const piece of pieces) await io.stdout.write(piece)
  return exit.ok
}
