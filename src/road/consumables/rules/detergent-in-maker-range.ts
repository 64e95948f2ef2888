import type { Bodies } from '../../kinds.ts'
import { figure } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import { subjectKey } from '../../subject.ts'
import { detergentMaker } from '../sources.ts'

/** Detergent is used as its maker wants it: too weak or too cold cleans less, too strong or too hot harms or sets protein. */
export const detergentInMakerRange = defineRule({
  id: 'detergent-in-maker-range',
  says: 'Detergent is used in the dilution and at the temperature that its maker wants.',
  on: ['wash-recorded'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const id = body.detergent?.lot ?? body.detergentLot
    const lot = id === undefined ? undefined : facts.known(id)
    if (lot === undefined || lot.of !== 'detergent') return []
    const name = `Detergent of lot ${lot.number || subjectKey(lot.id)}`
    const range = lot.makerRange
    return [
      ...held(`${name}: dilution`, dilutionOf(body), range?.dilutionMlPerLitre, 'ml/L'),
      ...held(`${name}: temperature`, body.detergent?.temperatureC, range?.temperatureC, '°C'),
    ]
  },
})

interface Range {
  readonly from: number
  readonly to: number
}

function held(what: string, used: number | undefined, range: Range | undefined, unit: string): readonly Found[] {
  const source = detergentMaker
  if (range === undefined || used === undefined) {
    const missing = range === undefined ? 'what its maker wants is not written down' : 'not written down for this wash'
    return [{ weight: 'note', says: `${what}: ${missing}. Whether it was right is not known.`, source }]
  }
  if (used >= range.from && used <= range.to) return []
  const [too, limit] =
    used < range.from ? ['below', `from ${figure(range.from)} ${unit}`] : ['above', `up to ${figure(range.to)} ${unit}`]
  const says = `${what} is ${too} what its maker wants. Look whether the sets are clean, and wash them again when in doubt.`
  return [{ weight: 'caution', says, measured: `${figure(used)} ${unit}`, limit, source }]
}

/** One per cent of detergent in the water is ten millilitres in a litre. */
function dilutionOf({ detergent, detergentPercent }: Bodies['wash-recorded']): number | undefined {
  return detergent?.dilutionMlPerLitre ?? (detergentPercent === undefined ? undefined : detergentPercent * 10)
}
