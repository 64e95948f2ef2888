import type { CycleReport } from '#road/sterilising/entries.ts'
import { reportOf } from '#road/sterilising/report-of.ts'
import { invariant } from '#units/invariant.ts'
import { readSteamCycles } from '#workings/steam/read-steam-cycles.ts'
import { isUnusable } from '#workings/steam/unusable.ts'
import { type Steriliser, steamLogMap, steamProgram } from './machines.ts'

/** What the real reader makes of a log of ours; one that it cannot read is our own fault. */
export function cycleReport(text: string, steriliser: Steriliser): CycleReport {
  const read = readSteamCycles({
    log: text,
    program: steamProgram,
    map: steamLogMap,
    volumeLitres: steriliser.chamberLitres,
    cycle: 1,
  })
  invariant(!isUnusable(read), `the reader refuses a simulated log: ${JSON.stringify(read)}`)
  const [reading] = read.cycles
  invariant(reading, 'a simulated log holds one cycle')
  return reportOf(reading)
}
