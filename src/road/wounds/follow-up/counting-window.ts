import { ssiWindowDays } from '#workings/statistics/ssi-window-days.ts'
import { lastDayOfWindow } from '#workings/statistics/ssi-window-last-day.ts'
import type { CaseKnown } from '../../operating/fold.ts'
import type { Procedure } from '../../operating/procedures.ts'
import type { Depth } from '../case-definition.ts'

/** How long an operation's wound is counted, and the last day that counts. */
export interface CountingWindow {
  readonly days: 30 | 90
  readonly lastDay: (operatedOn: string) => string
}

/** The groups of operations that the surveillance windows go by. Any other has the shorter one. */
const groups: Readonly<Partial<Record<Procedure, Parameters<typeof ssiWindowDays>[0]>>> = {
  inguinalHernia: 'HER',
  ventralHernia: 'HER',
  splenectomy: 'SPLE',
  fundoplication: 'GAST',
  diagnosticLaparoscopy: 'XLAP',
  tubalLigation: 'OVRY',
  cholecystectomy: 'CHOL',
  bileDuct: 'BILI',
  bariatric: 'GAST',
  colectomy: 'COLO',
  rectal: 'REC',
  smallBowel: 'SB',
  appendectomy: 'APPY',
  hysterectomy: 'HYST',
  nephrectomy: 'NEPH',
}

const depthNames = {
  superficial: 'superficial_incisional',
  deep: 'deep_incisional',
  organSpace: 'organ_space',
} as const

/** The window of one operation for wounds of this depth. */
export function countingWindow(operation: Pick<CaseKnown, 'booked'>, depth: Depth): CountingWindow {
  const category = operation.booked?.category
  const group = category === undefined ? undefined : groups[category]
  const days = group === undefined ? 30 : ssiWindowDays(group, depthNames[depth])
  return { days, lastDay: (operatedOn) => lastDayOfWindow(operatedOn, days) }
}
