import { createContext, useContext, useMemo } from 'react'
import type { UnitState } from '#service/api-types.ts'
import { invariant } from '#units/invariant.ts'
import { instantOfWallClock, wallClock } from '#road/wall-clock.ts'

export type OpenUnit = Extract<UnitState, { state: 'open' }>

export const UnitContext = createContext<OpenUnit | null>(null)

export function useUnit(): OpenUnit {
  const unit = useContext(UnitContext)
  invariant(unit !== null, 'a page of the unit is shown inside UnitContext')
  return unit
}

export interface Times {
  /** 25 Nov, 09:31 */
  readonly moment: (at: string) => string
  /** 25 Nov 2026 */
  readonly day: (at: string) => string
  /** 25 Nov 2026, of a calendar day `2026-11-25` of the unit, which no time zone moves. */
  readonly date: (day: string) => string
  /** November 2026, of a calendar month `2026-11`. */
  readonly month: (month: string) => string
  /** 09:31 */
  readonly clock: (at: string) => string
  /** As a `datetime-local` field holds it, and back. */
  readonly toInput: (at: string) => string
  readonly fromInput: (local: string) => string | undefined
}

/** Times in the unit's own time zone, wherever the screen stands. */
export function useTimes(): Times {
  const { timeZone } = useUnit().unit
  return useMemo(() => {
    const format = (options: Intl.DateTimeFormatOptions, zone = timeZone) => {
      const formatter = new Intl.DateTimeFormat('en-GB', { timeZone: zone, ...options })
      return (at: string) => (Number.isNaN(Date.parse(at)) ? '—' : formatter.format(new Date(at)))
    }
    const date = { day: 'numeric', month: 'short', year: 'numeric' } as const
    const clock = { hour: '2-digit', minute: '2-digit' } as const
    return {
      moment: format({ day: 'numeric', month: 'short', ...clock }),
      day: format(date),
      date: format(date, 'UTC'),
      month: format({ month: 'long', year: 'numeric' }, 'UTC'),
      clock: format(clock),
      toInput: (at) => wallClock(at, timeZone),
      fromInput: (local) => instantOfWallClock(local, timeZone),
    }
  }, [timeZone])
}
