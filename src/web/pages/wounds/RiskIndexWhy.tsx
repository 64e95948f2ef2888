import type { CaseLine } from '#service/api-types.ts'
import { citeSource } from '#units/source.ts'
import { Why } from '../../components/Why.tsx'
import { words } from '../../words/words.ts'

type Line = Pick<CaseLine, 'riskIndex' | 'asa' | 'woundClass' | 'minutes'>

/** The risk index of one operation, which opens what it rests on. */
export function RiskIndexWhy({ line }: { readonly line: Line }) {
  const w = words.wounds.risk
  const { category, missing, cut, laparoscope } = line.riskIndex
  const value = w.categories[category ?? 'notEvaluable']
  const cutText = cut === null ? w.unknown : `${w.minutes(String(cut.minutes))}, ${w.from[cut.from](cut.operations)}`
  const says = [...missing.map((each) => w.missing[each]), ...(laparoscope ? [w.laparoscope] : [])].join('; ')
  return (
    <Why
      of={{
        title: w.indexTitle,
        value,
        says: says === '' ? undefined : says,
        inputs: w.inputs(line.asa?.toString() ?? w.unknown, line.woundClass, line.minutes, cutText),
        limit: cut === null ? undefined : `${cutText}. ${citeSource(cut.source)}`,
        working: laparoscope ? 'risk-index-laparoscopic' : 'risk-index',
      }}
    >
      {category ?? value}
    </Why>
  )
}
