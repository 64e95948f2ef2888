import type { PlanInstance } from '#workings/planning/instance.ts'
import type { Finding } from '../finding.ts'
import type { Limit } from '../policy.ts'
import { minutesOfClock } from './day-clock.ts'
import type { DayFacts } from './day-facts.ts'
import {
  lineFrom,
  lineTo,
  packingStaff,
  theatreCloses,
  theatreMustClose,
  theatreOpens,
  washRoomStaff,
} from './limits.ts'

type Asked = Pick<DayFacts, 'policy' | 'unit'>

/** A window of every day, in minutes after midnight. */
export interface Window {
  readonly from: number
  readonly to: number
}

/** The theatres of a day with their hours: those that have hours set, and those that a case is booked for. */
export function theatresOf(
  { policy, unit }: Asked,
  booked: readonly string[],
): { readonly theatres: PlanInstance['theatres']; readonly notes: readonly Finding[] } {
  const set = Object.values(unit.hours ?? {}).flatMap((hours) => (hours.kind === 'theatre' ? [hours] : []))
  const names = [...new Set([...set.map(({ theatre }) => theatre), ...booked])].sort()
  const minutesOf = (limit: Limit<number>): number => Math.round(policy.limit(limit).value * 60)
  const theatres = names.map((id) => {
    const own = set.find(({ theatre }) => theatre === id)
    if (own === undefined) {
      const [open, close] = [minutesOf(theatreOpens), minutesOf(theatreCloses)]
      return { id, open, close, hardClose: Math.max(close, minutesOf(theatreMustClose)) }
    }
    const [open, close, hardClose] = [own.opens, own.closes, own.mustClose].map(minutesOfClock)
    return { id, open: open ?? 0, close: close ?? 0, hardClose: hardClose ?? 0 }
  })
  const unset = names.filter((name) => !set.some(({ theatre }) => theatre === name))
  return { theatres, notes: unset.map((name) => byDefault(`${name}: hours`, policy.limit(theatreOpens).source)) }
}

/** Staff of a place of work and its hours. */
export function staffOf(
  { policy, unit }: Asked,
  place: 'washRoom' | 'packing',
): Window & { readonly count: number; readonly notes: readonly Finding[] } {
  const own = unit.hours?.[`staff ${place}`]
  if (own?.kind === 'staff')
    return { count: own.count, from: minutesOfClock(own.from), to: minutesOfClock(own.to), notes: [] }
  const limit = policy.limit(place === 'washRoom' ? washRoomStaff : packingStaff)
  const name = place === 'washRoom' ? 'Wash room' : 'Packing'
  return { count: limit.value, ...lineHours({ policy }), notes: [byDefault(`${name}: staff and hours`, limit.source)] }
}

/** When the line works where nothing else is set. */
export function lineHours({ policy }: Pick<Asked, 'policy'>): Window {
  return {
    from: Math.round(policy.limit(lineFrom).value * 60),
    to: Math.round(policy.limit(lineTo).value * 60),
  }
}

export function byDefault(what: string, source: Finding['source']): Finding {
  return { rule: 'plan-default', weight: 'note', says: `${what} are defaults. Set your own.`, source }
}
