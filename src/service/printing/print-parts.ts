import type { Instant } from '#road/instant.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import type { Reader } from '#journal/journal.ts'
import type { Cell, Content } from './content.ts'
import type { PrintedPage } from './printed-page.ts'

/** Moments as a printed page gives them: by the clock of the unit, and by whose clock. */
function printTimes(timeZone = 'UTC'): (at: string) => string {
  const format = new Intl.DateTimeFormat('en-GB', { timeZone, dateStyle: 'medium', timeStyle: 'short' })
  return (at) => `${format.format(new Date(at))}${timeZone === 'UTC' ? ' UTC' : ''}`
}

/** What subjects are called; a pack is called by its set and its own key. */
export async function namesOf(
  reader: Reader,
  subjects: readonly (SubjectId | null | undefined)[],
): Promise<ReadonlyMap<SubjectId, string>> {
  const asked = [...new Set(subjects.filter((each) => each !== null && each !== undefined))]
  const known = await reader.known(asked)
  const sets = asked.flatMap((id) => setOf(known.get(id)) ?? [])
  const knownSets = await reader.known(sets)
  return new Map(
    asked.flatMap((id) => {
      const here = known.get(id)
      if (here === undefined) return []
      if ('name' in here && typeof here.name === 'string' && here.name !== '') return [[id, here.name] as const]
      const set = setOf(here)
      const named = set === undefined ? undefined : knownSets.get(set)
      return named === undefined ? [] : [[id, `${named.name} (${subjectKey(id)})`] as const]
    }),
  )
}

function setOf(known: object | undefined): SubjectId<'set'> | undefined {
  return known !== undefined && 'set' in known && typeof known.set === 'string'
    ? (known.set as SubjectId<'set'>)
    : undefined
}

export const heading = (text: string): Content => ({ text, style: 'heading' })

/** So much fits on a page also in the narrowest column. A row that is kept together and does not fit on a page is not printed at all. */
const mostLettersTogether = 300

export function rows(
  head: readonly string[],
  body: readonly (readonly Cell[])[],
  widths: readonly (number | '*')[],
): Content {
  const fits = body.every((row) => row.every((cell) => textOf(cell).length <= mostLettersTogether))
  return {
    layout: 'lightHorizontalLines',
    margin: [0, 2, 0, 4],
    table: {
      headerRows: 1,
      ...(fits ? { keepWithHeaderRows: 1, dontBreakRows: true } : {}),
      widths,
      body: [head.map((text) => ({ text, style: 'cell' })), ...body.map((row) => [...row])],
    },
  }
}

function textOf(cell: Cell): string {
  return typeof cell === 'string' ? cell : cell.text
}

const weights: Readonly<Record<string, string>> = {
  stop: 'Stop',
  caution: 'Caution',
  note: 'Note',
  notEvaluable: 'Not evaluable',
}

export function weightWord(weight: string): string {
  return weights[weight] ?? weight
}

/** What is said of a thing, a line each. */
export function facts(said: readonly (readonly [what: string, is: string])[]): Content {
  return {
    layout: 'noBorders',
    table: { widths: [90, '*'], body: said.map(([what, is]) => [{ text: what, style: 'cell' }, is]) },
  }
}

/** Who prints, and when. */
export interface PrintAsked {
  readonly by: string
  readonly now: Instant
}

/** What is the same on all pages: whose they are, printed when and by whom; and the clock of the unit. */
export async function pageOf(
  reader: Reader,
  { by, now }: PrintAsked,
): Promise<{
  readonly times: (at: string) => string
  readonly frame: Pick<PrintedPage, 'unit' | 'printedAt' | 'printedBy'>
}> {
  const [unit] = await reader.standing('unit', ['open'])
  const times = printTimes(unit?.timeZone)
  const invented = unit?.demonstration === true ? ' (demonstration: invented people and events)' : ''
  return { times, frame: { unit: `${unit?.name ?? 'No unit'}${invented}`, printedAt: times(now), printedBy: by } }
}
