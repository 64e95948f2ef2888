import type { Bodies } from '../kinds.ts'
import { type ReadingMisfit, readingMisfit, type WantedIncubation } from './incubation.ts'

type Read = Omit<Bodies['biological-read'], 'load'>

/** Why no growth in a reading proves nothing, by its control: the reason in words; undefined when the control is as it must be. */
export function controlMisfit({ lot, control }: Pick<Read, 'lot' | 'control'>): string | undefined {
  if (control === null) return 'there is no control'
  if (control.lot !== lot) return 'the control is of another lot'
  return control.result === 'growth' ? undefined : 'the control did not grow, so the lot or the incubator is dead'
}

const misfits: Readonly<Record<ReadingMisfit, string>> = {
  tooEarly: 'it was read before its incubation was over',
  otherThanLot: 'the hours that were typed are not those of its lot',
  wrongWarmth: 'the incubator was not at its temperature',
  warmthUnknown: 'the temperature of the incubator is not recorded',
  otherReader: 'it was read in another reader than its maker wants',
}

/** Why a reading is invalid, all reasons in words; undefined when it counts. Growth counts whatever the control did, and at any hour. */
export function invalidReading(read: Read, wanted: WantedIncubation): string | undefined {
  if (read.result === 'growth') return undefined
  const misfit = readingMisfit(read, wanted)
  const reasons = [controlMisfit(read), misfit === undefined ? undefined : misfits[misfit]]
  const said = reasons.filter((reason) => reason !== undefined)
  return said.length === 0 ? undefined : said.join('; ')
}
