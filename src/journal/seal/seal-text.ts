import { describeProblem, problemsOf } from '#units/problem.ts'
import { Seal } from './seal.ts'
import { keyId } from './sign-seal.ts'

/*
 * A seal on paper: a line for each field, hashes in groups so that a person can compare them. What was printed can be
 * typed in again: spaces do not count.
 */

const heading = 'Seal of a nilgrowth record'

export function sealText(seal: Seal): string {
  const lines = [
    ['Site', seal.site],
    ['Entries', `1 to ${seal.seq}`],
    ['Last entry recorded at', seal.recordedAt],
    ['Sealed at', seal.sealedAt],
    ['Hash of the last entry', grouped(seal.hash)],
    ['Sum of the contents', grouped(seal.sums.plain)],
    ['Weighted sum', grouped(seal.sums.weighted)],
    ['Public key', grouped(seal.publicKey)],
    ['Key', keyId(seal.publicKey)],
    ['Signature', grouped(seal.signature)],
  ] as const
  const check =
    'Keep it away from the computer of the record. To check it: nilgrowth verify --seal FILE --key PUBLIC-KEY'
  return [heading, '', ...lines.map(([label, value]) => `${label}: ${value}`), '', check, ''].join('\n')
}

export type ReadSeals =
  | { readonly kind: 'seals'; readonly seals: readonly Seal[] }
  | { readonly kind: 'wrong'; readonly says: string }

/** Reads seals as JSON, one a line or one over many lines, or as they were printed. */
export function readSeals(given: string): ReadSeals {
  const text = given.replaceAll(/[ \t]+/g, ' ')
  const values = text.trimStart().startsWith('{') ? jsonValues(text) : text.split(heading).slice(1).map(fromPaper)
  if (values.length === 0)
    return { kind: 'wrong', says: `wanted a seal as it was printed, from "${heading}" on, or as JSON` }
  const seals: Seal[] = []
  for (const value of values) {
    const parsed = Seal.safeParse(value)
    if (!parsed.success) {
      return { kind: 'wrong', says: problemsOf(parsed.error, value).map(describeProblem).join('; ') }
    }
    seals.push(parsed.data)
  }
  return { kind: 'seals', seals }
}

function jsonValues(text: string): unknown[] {
  const whole = parsedJson(text)
  if (whole !== undefined) return [whole]
  const lines = text.split('\n').filter((line) => line.trim() !== '')
  return lines.map((line) => parsedJson(line) ?? line)
}

function parsedJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

function fromPaper(text: string): unknown {
  const fields = fieldsOf(text)
  const field = (label: string): string => fields.get(label) ?? ''
  return {
    format: 'nilgrowth seal',
    version: 1,
    site: field('Site'),
    seq: Number(/^1to(\d+)$/.exec(field('Entries'))?.[1]),
    hash: field('Hash of the last entry'),
    recordedAt: field('Last entry recorded at'),
    sealedAt: field('Sealed at'),
    sums: { plain: field('Sum of the contents'), weighted: field('Weighted sum') },
    publicKey: field('Public key'),
    signature: field('Signature'),
  }
}

/** The values by their labels, without spaces. A value may go on over lines, as narrow paper has it; an empty line ends it. */
function fieldsOf(text: string): Map<string, string> {
  const fields = new Map<string, string>()
  let label: string | undefined
  for (const line of text.split(/\r?\n/).map((one) => one.trim())) {
    const begun = labels.find((known) => line.startsWith(`${known}:`))
    if (begun !== undefined) fields.set((label = begun), line.slice(begun.length + 1).replaceAll(' ', ''))
    else if (line === '') label = undefined
    else if (label !== undefined) fields.set(label, `${fields.get(label)}${line.replaceAll(' ', '')}`)
  }
  return fields
}

const labels = [
  'Site',
  'Entries',
  'Last entry recorded at',
  'Sealed at',
  'Hash of the last entry',
  'Sum of the contents',
  'Weighted sum',
  'Public key',
  'Key',
  'Signature',
]

function grouped(text: string): string {
  return (text.match(/.{1,8}/g) ?? []).join(' ')
}
