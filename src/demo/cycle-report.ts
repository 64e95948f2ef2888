import type { CycleReport } from '#road/sterilising/entries.ts'
import { invariant } from '#units/invariant.ts'
import type { SteamCriterion } from '#workings/steam/criterion.ts'
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
  return {
    verdict: reading.verdict,
    holdingSeconds: reading.holdingSeconds,
    equilibrationSeconds: reading.equilibrationSeconds,
    fMinutes: reading.fMinutes,
    fReferenceC: reading.fReferenceC,
    zK: reading.zK,
    minC: reading.minC,
    maxC: reading.maxC,
    maxSpreadK: reading.maxSpreadK,
    criteria: reading.criteria.map(criterionInWords),
    findings: reading.findings.map(({ rule, weight, says }) => ({ rule, weight, says })),
  }
}

function criterionInWords({
  id,
  result,
  measured,
  limit,
  unit,
  source,
}: SteamCriterion): CycleReport['criteria'][number] {
  return {
    id,
    result,
    measured: measured === null ? null : `${measured} ${unit}`,
    limit: `${limit} ${unit}`,
    source: [source.title, source.edition, source.clause].filter((part) => part !== undefined).join(', '),
  }
}
