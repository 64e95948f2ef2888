import type { RoundKnown } from '../round.ts'

/** Whether what a set owes its safety to is a bath: it was in one since its wash, and in no load. */
export function isFromBath(round: Pick<RoundKnown, 'immersion' | 'load'>): boolean {
  return round.immersion !== null && round.load === null
}
