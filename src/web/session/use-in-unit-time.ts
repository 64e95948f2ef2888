import { useContext } from 'react'
import { UnitContext } from './unit.ts'
import { momentIn } from './zone.ts'

const isoMoment = /"?(\d{4}-\d{2}-\d{2}T[\d:.]+Z)"?/g

/** Moments come in texts as the service writes them; people read them by the clock of their unit. */
export function useInUnitTime(): (text: string) => string {
  const unit = useContext(UnitContext)
  return (text) =>
    unit === null ? text : text.replaceAll(isoMoment, (_, at: string) => momentIn(unit.unit.timeZone, at))
}
