import type { CycleReport } from './entries.ts'

/** The criteria of a cycle by name, as screens and printed pages say them. */
export const criterionTitles: Readonly<Record<string, string>> = {
  hold: 'Holding time',
  band: 'Temperature band',
  satBand: 'Against theoretical temperature',
  spread: 'Spread between sensors',
  equilibration: 'Equilibration time',
  topFirst: 'Free space, first minute',
  topAfter: 'Free space, afterwards',
  pulses: 'Air-removal pulses',
  drying: 'Drying',
  // Of a gas cycle or dry heat: how long each variable stayed where the programme wants it.
  complete: 'Run to its end',
  exposure: 'Exposure, all in their windows',
  notTooLong: 'Exposure not too long',
  temperatureC: 'Temperature in its window',
  relativeHumidityPercent: 'Humidity in its window',
  concentrationMgPerL: 'Gas in its window',
  pressureKPa: 'Pressure in its window',
}

export const verdictWords: Record<CycleReport['verdict'], string> = {
  met: 'Met',
  notMet: 'Not met',
  notEvaluable: 'Not evaluable',
}
