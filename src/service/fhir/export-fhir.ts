import type { Instant } from '#road/instant.ts'
import type { Reader } from '#journal/journal.ts'
import { urlOf } from './around.ts'
import { walkFhir } from './fhir-walk.ts'
import { type FhirType, fhirTypes } from './resource.ts'

export const fhirForms = ['bundle', 'ndjson'] as const
export type FhirForm = (typeof fhirForms)[number]

const linesOfPiece = 100

/** All resources, or those of one type: a Bundle of the type collection, or a resource a line; piece by piece. */
export async function* fhirText(
  reader: Reader,
  form: FhirForm,
  {
    types = fhirTypes,
    base,
    now,
  }: { readonly types?: readonly FhirType[]; readonly base: string; readonly now: Instant },
): AsyncGenerator<string> {
  const isBundle = form === 'bundle'
  let piece: string[] = isBundle
    ? [`{"resourceType":"Bundle","type":"collection","timestamp":${JSON.stringify(now)},"entry":[\n`]
    : []
  let first = true
  for (const type of types)
    for await (const { resource } of walkFhir(reader, type)) {
      const entry = isBundle ? { fullUrl: urlOf(base, type, resource.id), resource } : resource
      piece.push(`${isBundle && !first ? ',\n' : ''}${JSON.stringify(entry)}${isBundle ? '' : '\n'}`)
      first = false
      if (piece.length < linesOfPiece) continue
      yield piece.join('')
      piece = []
    }
  if (isBundle) piece.push('\n]}\n')
  yield piece.join('')
}
