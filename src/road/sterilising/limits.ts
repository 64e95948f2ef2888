import type { Limit } from '../policy.ts'
import { airLeakage, cdcMonitoring, cdcPositiveIndicator, st79Release, unverifiedPractice } from './sources.ts'

export const leakKPaPerMinute: Limit<number> = {
  id: 'leak-kpa-per-minute',
  title: 'Greatest air leakage of a steriliser',
  unit: 'kPa/min',
  value: 0.13,
  source: airLeakage,
  allowed: { from: 0.01, to: 0.13 },
}

export const leakTestSeconds: Limit<number> = {
  id: 'leak-test-seconds',
  title: 'Shortest time over which the leakage is measured',
  unit: 's',
  value: 600,
  source: airLeakage,
  allowed: { from: 60, to: 3600 },
}

export const leakSettlingSeconds: Limit<number> = {
  id: 'leak-settling-seconds',
  title: 'Shortest time for the chamber to settle before the leakage is measured',
  unit: 's',
  value: 300,
  source: airLeakage,
  allowed: { from: 0, to: 3600 },
}

export const leakTestEveryDays: Limit<number> = {
  id: 'leak-test-every-days',
  title: 'Longest time between leak tests',
  unit: 'days',
  value: 7,
  source: { ...unverifiedPractice, clause: 'leak test weekly' },
  allowed: { from: 1, to: 31 },
}

export const biologicalEveryDays: Limit<number> = {
  id: 'biological-every-days',
  title: 'Longest time between biological tests of a steriliser',
  unit: 'days',
  value: 7,
  source: { ...cdcMonitoring, clause: 'biological indicator at least weekly, preferably daily' },
  allowed: { from: 1, to: 7 },
}

export const incubationHours: Limit<number> = {
  id: 'incubation-hours',
  title: 'Shortest incubation before no growth is read; a rapid indicator needs less by its maker',
  unit: 'hours',
  value: 24,
  source: { ...st79Release, clause: 'steam indicators: 24 to 48 h; rapid ones 20 min to 3 h' },
  allowed: { from: 0.3, to: 168 },
}

export const incubatorFromC: Limit<number> = {
  id: 'incubator-from-c',
  title: 'Coldest incubator for the spores of the steam indicator',
  unit: '°C',
  value: 55,
  source: { ...st79Release, clause: 'steam indicators: 55 to 60 °C' },
  allowed: { from: 50, to: 60 },
}

export const incubatorToC: Limit<number> = {
  id: 'incubator-to-c',
  title: 'Warmest incubator for the spores of the steam indicator',
  unit: '°C',
  value: 60,
  source: { ...st79Release, clause: 'steam indicators: 55 to 60 °C' },
  allowed: { from: 55, to: 65 },
}

export const returnBiological: Limit<number> = {
  id: 'return-biological',
  title: 'Good biological results in a row before a steriliser goes back into service',
  unit: 'cycles',
  value: 3,
  source: { ...cdcPositiveIndicator, clause: 'Table 12 after a positive; sterilising practices after a major repair' },
  allowed: { from: 3, to: 10 },
}

export const returnAirRemoval: Limit<number> = {
  id: 'return-air-removal',
  title: 'Air-removal tests passed in a row before a steriliser with dynamic air removal goes back into service',
  unit: 'tests',
  value: 3,
  source: { ...cdcMonitoring, clause: 'after installation, move or major repair' },
  allowed: { from: 3, to: 10 },
}

export const coolingMinutes: Limit<number> = {
  id: 'cooling-minutes',
  title: 'Shortest cooling of packs before they are handled',
  unit: 'minutes',
  value: 30,
  source: { ...st79Release, clause: 'cooling: 30 min to 2 h' },
  allowed: { from: 0, to: 240 },
}

export const sterilisingLimits = Object.freeze([
  leakKPaPerMinute,
  leakTestSeconds,
  leakSettlingSeconds,
  leakTestEveryDays,
  biologicalEveryDays,
  incubationHours,
  incubatorFromC,
  incubatorToC,
  returnBiological,
  returnAirRemoval,
  coolingMinutes,
] as const)
