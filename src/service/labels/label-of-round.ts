import type { Instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import { policyFrom } from '#road/policy.ts'
import { unitPolicy } from '#road/gather.ts'
import { type LabelText, labelText } from '#road/packing/labels/label-text.ts'
import { type LabelLayout, layOut } from '#road/packing/labels/lay-out.ts'
import { labelStock, readStock, wantedStock } from '#road/packing/labels/stock.ts'
import { packsInDoubt } from '#road/storing/packs-in-doubt.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import type { Problem } from '#units/problem.ts'
import type { Reader } from '#journal/journal.ts'
import { codesOf, type LabelCodes } from './codes.ts'

export interface LabelAsked {
  readonly round: SubjectId<'round'>
  /** Without one, what the policy of the unit says. */
  readonly stock: string | undefined
  readonly bars: boolean
}

export type LabelMade =
  | { readonly is: 'label'; readonly text: LabelText; readonly layout: LabelLayout; readonly codes: LabelCodes }
  | { readonly is: 'unknown' }
  | { readonly is: 'unusable'; readonly problem: Problem }

/** The label of a pack as things stand now, laid out on the stock that is asked for. */
export async function labelOfRound(reader: Reader, asked: LabelAsked, now: Instant): Promise<LabelMade> {
  const round = (await reader.known([asked.round])).get(asked.round)
  if (round === undefined) return { is: 'unknown' }
  const text = await textOf(reader, round, now)
  if (text === undefined) return unusable('round', 'a round whose pack is sealed', subjectKey(asked.round))
  const policy = policyFrom((await reader.known([unitPolicy])).get(unitPolicy))
  const stockText = asked.stock ?? policy.limit(labelStock).value
  const stock = readStock(stockText)
  if (stock === undefined) return unusable('stock', wantedStock, stockText)
  const codes = codesOf(text, asked.bars)
  const laidOut = layOut(text, stock, codes)
  if ('wanted' in laidOut) return unusable('stock', laidOut.wanted, stockText)
  return { is: 'label', text, layout: laidOut.layout, codes }
}

function unusable(field: string, wanted: string, current: string): LabelMade {
  return { is: 'unusable', problem: { field, wanted, current: JSON.stringify(current) } }
}

async function textOf(reader: Reader, round: KnownOf<'round'>, now: Instant): Promise<LabelText | undefined> {
  if (round.sealed === null) return undefined
  const one = async <K extends 'set' | 'person' | 'load' | 'machine'>(id: SubjectId<K> | null | undefined) =>
    id === null || id === undefined ? undefined : (await reader.known([id])).get(id)
  const load = await one(round.load?.id)
  const [unit] = await reader.knownOfKind('unit', { limit: 1 })
  const [set, person, machine] = [await one(round.set), await one(round.sealed.by), await one(load?.machine)]
  const doubts = (await packsInDoubt(reader, [round], now)).get(round.id) ?? []
  return labelText({
    round,
    setName: set?.name || (round.set === null ? subjectKey(round.id) : subjectKey(round.set)),
    unitName: unit?.known.name ?? '',
    timeZone: unit?.known.timeZone ?? 'UTC',
    packedBy: person?.name || subjectKey(round.sealed.by),
    load,
    machine,
    doubts,
    printedAt: now,
  })
}
