import type { GasCycleReading } from '#workings/gas/read-gas-cycle.ts'
import type { CycleReport } from '../sterilising/entries.ts'

/** What is kept of the reading of a gas or dry heat log: it has no F, and its exposure is its holding time. */
export function gasReportOf(reading: GasCycleReading): CycleReport {
  const temperature = reading.variables.find(({ variable }) => variable === 'temperatureC')
  return {
    verdict: reading.verdict,
    holdingSeconds: reading.exposureSeconds,
    equilibrationSeconds: null,
    fMinutes: null,
    fReferenceC: null,
    zK: null,
    minC: temperature?.min ?? null,
    maxC: temperature?.max ?? null,
    maxSpreadK: null,
    criteria: reading.criteria.map(({ id, result, measured, limit, unit, source }) => ({
      id,
      result,
      measured: measured === null ? null : `${measured} ${unit}`,
      limit: limit === null ? 'not stated' : `${limit} ${unit}`,
      source: [source.title, source.edition, source.clause].filter((part) => part !== undefined).join(', '),
    })),
    findings: reading.findings.map(({ rule, weight, says }) => ({ rule, weight, says })),
  }
}
