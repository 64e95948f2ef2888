import { z } from 'zod'
import type { CycleFacts } from './criterion.ts'
import { plateauSpan } from './cycle-facts.ts'
import { dryingBelowKPa } from './drying.ts'
import { at, figure } from './series.ts'

/** One stage of a cycle with its times. */
export const SteamPhase = z.strictObject({
  id: z.enum(['airRemoval', 'heating', 'equilibration', 'holding', 'exhaust', 'drying']),
  startSeconds: z.number(),
  endSeconds: z.number(),
})
export type SteamPhase = z.infer<typeof SteamPhase>

/** The stages that the log shows, in order; equilibration and holding together are the plateau. */
export function phasesOf(facts: CycleFacts): SteamPhase[] {
  const { log, cycle, holding, pulses, drying } = facts
  const plateau = plateauSpan(holding)
  const window = holding.window
  const firstPulse = pulses[0]
  const lastPulse = pulses.at(-1)
  const marks: [SteamPhase['id'], number | undefined, number | undefined][] = [
    ['airRemoval', firstPulse && evacuationStart(facts, firstPulse.lowAt), lastPulse?.lowAt],
    ['heating', lastPulse?.lowAt ?? heatingStart(facts), plateau?.from ?? cycle.hot?.from],
    ['equilibration', plateau?.from, window?.from],
    ['holding', window?.from, window?.to],
    ['exhaust', window?.to, drying?.from ?? (window === null ? undefined : exhaustEnd(facts, window.to))],
    ['drying', drying?.from, drying?.to],
  ]
  return marks.flatMap(([id, from, to]) => {
    const startSeconds = from === undefined ? null : figure(at(log.seconds, from))
    const endSeconds = to === undefined ? null : figure(at(log.seconds, to))
    return startSeconds === null || endSeconds === null || endSeconds < startSeconds
      ? []
      : [{ id, startSeconds, endSeconds }]
  })
}

/** Where the pressure was last at its highest before the first low. */
function evacuationStart({ log, cycle }: CycleFacts, lowAt: number): number {
  const values = log.pressure?.values ?? new Float64Array()
  let index = lowAt
  while (index > cycle.from && !(at(values, index - 1) < at(values, index) - 1) && at(values, index) < 80) index -= 1
  return index
}

/** Without pulses, heating starts where the chamber was last below 60 °C before it got hot. */
function heatingStart({ cycle }: CycleFacts): number | undefined {
  if (cycle.hot === null) return undefined
  let index = cycle.hot.from
  while (index > cycle.from && !(at(cycle.chamber, index) < 60)) index -= 1
  return index
}

/** Without a drying vacuum, exhaust ends at the pressure of the open air, or below 100 °C when there is no pressure. */
function exhaustEnd({ log, cycle }: CycleFacts, from: number): number {
  let index = from
  const done = (place: number) =>
    log.pressure === null ? at(cycle.chamber, place) < 100 : at(log.pressure.values, place) < 2 * dryingBelowKPa
  while (index < cycle.to && !done(index)) index += 1
  return index
}
