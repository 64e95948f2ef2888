import type { Source } from '#units/source.ts'
import type { SteamCriterion } from '#workings/steam/criterion.ts'
import type { SteamCycleReading } from '#workings/steam/reading.ts'
import type { CycleReport } from './entries.ts'

/** What is kept of a reading in the record: the verdict and the figures that led to it, in words. */
export function reportOf(reading: SteamCycleReading): CycleReport {
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

type Criterion = CycleReport['criteria'][number]

function criterionInWords({ id, result, measured, limit, unit, source }: SteamCriterion): Criterion {
  return {
    id,
    result,
    measured: measured === null ? null : `${measured} ${unit}`,
    limit: `${limit} ${unit}`,
    source: placeOf(source),
  }
}

function placeOf({ title, edition, clause }: Source): string {
  return [title, edition, clause].filter((part) => part !== undefined).join(', ')
}
