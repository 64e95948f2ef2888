import { useParams } from 'react-router'
import { useNow } from '../../session/use-now.ts'
import { useTimes } from '../../session/unit.ts'
import { dayAfter } from './plan-view.ts'

/** The day that the address names, by the calendar of the unit; tomorrow when it names none. */
export function useListDay(): { readonly day: string; readonly today: string; readonly says: string } {
  const { day: named = '' } = useParams()
  const times = useTimes()
  const today = times.toInput(new Date(useNow(60)).toISOString()).slice(0, 10)
  const known = /^\d{4}-\d\d-\d\d$/.test(named) && times.fromInput(`${named}T12:00`) !== undefined
  const day = known ? named : dayAfter(today)
  return { day, today, says: times.day(times.fromInput(`${day}T12:00`) ?? '') }
}
