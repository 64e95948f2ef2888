import type { Incubation } from '#road/consumables/entries.ts'
import { words } from '../../words/words.ts'

/** How the maker of an indicator wants it incubated, in words. */
export function incubationText({ hours, temperatureC, reader }: Incubation): string {
  const w = words.lots
  return [
    w.hours(hours),
    temperatureC === undefined ? undefined : w.rangeOf(temperatureC.from, temperatureC.to, '°C'),
    reader === undefined ? undefined : w.inReader(reader),
  ]
    .filter((part) => part !== undefined)
    .join(', ')
}
