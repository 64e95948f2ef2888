import { useParams } from 'react-router'
import { useNow } from '../../session/use-now.ts'
import { useTimes } from '../../session/unit.ts'
import { dayAfter, isDay } from './plan-view.ts'

interface ListDay {
  readonly day: string
  readonly today: string
  readonly says: string
  /** What the address asks for where that is no day; null where it is one, or names none. */
  readonly noDay: string | null
}

/** The day that the address names, by the calendar of the unit; tomorrow when it names none. */
export function useListDay(): ListDay {
  const { day: named } = useParams()
  const times = useTimes()
  const today = times.toInput(new Date(useNow(60)).toISOString()).slice(0, 10)
  const known = named !== undefined && isDay(named)
  const day = known ? named : dayAfter(today)
  return {
    day,
    today,
    says: times.day(times.fromInput(`${day}T12:00`) ?? ''),
    noDay: known || named === undefined ? null : named,
  }
}
