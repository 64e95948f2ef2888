import { z } from 'zod'
import { Source } from '#units/source.ts'
import type { SteamCycleSpan } from './cycles.ts'
import type { Drying } from './drying.ts'
import type { Equilibration } from './equilibration.ts'
import type { Believed, Holding } from './holding.ts'
import type { SteamProgram } from './program.ts'
import type { Pulse } from './pulses.ts'
import { figure } from './series.ts'
import type { SteamFigure } from './sources.ts'
import type { SteamLog } from './steam-log.ts'

export const CriterionResult = z.enum(['met', 'notMet', 'notEvaluable'])
export type CriterionResult = z.infer<typeof CriterionResult>

/** One demand on a cycle, with what was measured and what was wanted. */
export const SteamCriterion = z.strictObject({
  id: z.enum(['hold', 'band', 'satBand', 'spread', 'equilibration', 'topFirst', 'topAfter', 'pulses', 'drying']),
  title: z.string(),
  result: CriterionResult,
  measured: z.number().nullable().describe('the figure as logged; null when it cannot be had'),
  limit: z.number().describe('the limit it is compared with; equality meets it'),
  unit: z.enum(['s', '°C', 'K', 'pulses']),
  doubtful: z.boolean().describe('true when the figure is there but too close to its limit to tell'),
  says: z.string().describe('the comparison, or why there is none, in one sentence'),
  source: Source,
})
export type SteamCriterion = z.infer<typeof SteamCriterion>

/** All that was found out about one cycle and is needed to judge it. */
export interface CycleFacts {
  readonly log: SteamLog
  readonly cycle: SteamCycleSpan
  readonly program: SteamProgram
  readonly sourceOf: (figure: SteamFigure) => Source
  readonly temperatures: readonly Believed[]
  readonly pressure: Believed | null
  readonly above: Believed | null
  readonly holding: Holding
  readonly equilibration: Equilibration | null
  readonly pulses: readonly Pulse[]
  readonly drying: Drying | null
  /** Why the holding time cannot be judged as met: each one sentence; empty when it can. */
  readonly obstacles: readonly string[]
  /** Why the reference or a load sensor cannot be believed, if so. */
  readonly badTemperatures: readonly string[]
  readonly endsInside: boolean
  /** Which equation gives the theoretical temperature, for the text. */
  readonly equationName: string
}

interface Judgement {
  readonly id: SteamFigure
  readonly title: string
  readonly measured: number
  readonly limit: number
  readonly unit: SteamCriterion['unit']
  readonly met: boolean
  readonly broken: boolean
  readonly obstacles: readonly string[]
  readonly source: Source
}

/**
 * A demand that is broken outright stays broken whatever else is missing; one that is met counts only when nothing
 * stands in the way; and what the doubt of the readings leaves open is not evaluable.
 */
export function judge(judgement: Judgement): SteamCriterion {
  const { id, title, limit, unit, met, broken, obstacles, source } = judgement
  const measured = figure(judgement.measured)
  const shown = measured === null ? 'no figure' : `${measured} ${unit}`
  const compared = `${shown}, limit ${figure(limit)} ${unit}`
  const base = { id, title, measured, limit, unit, doubtful: false, source }
  if (broken) return { ...base, result: 'notMet', says: compared }
  if (obstacles.length > 0) return { ...base, result: 'notEvaluable', says: obstacles.join('; ') }
  if (met) return { ...base, result: 'met', says: compared }
  return {
    ...base,
    result: 'notEvaluable',
    doubtful: true,
    says: `${compared}: too close to tell with the steps, noise or sampling of this log`,
  }
}
