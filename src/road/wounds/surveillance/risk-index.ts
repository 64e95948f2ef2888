import { riskIndex } from '#workings/statistics/risk-index.ts'
import { laparoscopicIndex } from '#workings/statistics/risk-index-laparoscopic.ts'
import type { WoundClass } from '../../operating/entries.ts'
import type { Procedure } from '../../operating/procedures.ts'
import type { DurationCut } from './duration-cut.ts'

export const riskCategories = ['M', '0-Yes', '0-No', '0', '1', '2', '3'] as const
export type RiskCategory = (typeof riskCategories)[number]

/** The risk index of one operation, with what each of its points rests on. */
export interface OperationRisk {
  /** Null when something that it needs is not on record: it is then not evaluable, not low. */
  readonly category: RiskCategory | null
  readonly missing: readonly ('asa' | 'durationCut')[]
  readonly points: {
    readonly asa: boolean | null
    readonly woundClass: boolean
    readonly duration: boolean | null
  }
  /** Whether the scheme of 2001 made something of the laparoscope. */
  readonly laparoscope: boolean
  readonly cut: DurationCut | null
}

/** The procedures that the scheme of 2001 treats apart, by its codes. Others are left as they are. */
const schemeCodes: Readonly<Partial<Record<Procedure, string>>> = {
  cholecystectomy: 'CHOL',
  colectomy: 'COLO',
  appendectomy: 'APPY',
  bariatric: 'GAST',
}

const rank: Readonly<Record<WoundClass, number>> = { I: 1, II: 2, III: 3, IV: 4 }

/** An operation that was converted to open counts as done without the laparoscope. */
export function operationRisk(operation: {
  readonly procedure: Procedure | null
  readonly asa: number | null
  readonly woundClass: WoundClass
  readonly minutes: number
  readonly converted: boolean
  readonly cut: DurationCut | undefined
  readonly scheme: string
}): OperationRisk {
  const { procedure, asa, minutes, converted, cut, scheme } = operation
  const woundClass = rank[operation.woundClass]
  const code = procedure === null || scheme !== 'scheme2001' ? undefined : schemeCodes[procedure]
  const told = {
    points: {
      asa: asa === null ? null : asa >= 3,
      woundClass: woundClass >= 3,
      duration: cut === undefined ? null : minutes > cut.minutes,
    },
    laparoscope: code !== undefined && !converted,
    cut: cut ?? null,
  }
  if (asa === null || cut === undefined) {
    const missing = [...(asa === null ? ['asa' as const] : []), ...(cut === undefined ? ['durationCut' as const] : [])]
    return { category: null, missing, ...told }
  }
  const basic = riskIndex({ asa, woundClass, durationMin: minutes, cutPointMin: cut.minutes })
  const index = code === undefined ? basic : laparoscopicIndex(code, basic, !converted)
  const category = riskCategories.find((each) => each === String(index)) ?? null
  return { category, missing: [], ...told }
}
