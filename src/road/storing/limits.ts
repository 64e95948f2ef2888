import type { Limit } from '../policy.ts'
import { storageClimate } from './sources.ts'

export const storageToC: Limit<number> = {
  id: 'storage-to-c',
  title: 'Warmest sterile store',
  unit: '°C',
  value: 24,
  source: { ...storageClimate, clause: 'ASHRAE 170: at most 24 °C' },
  allowed: { from: 18, to: 30 },
}

export const storageFromHumidity: Limit<number> = {
  id: 'storage-from-humidity',
  title: 'Driest sterile store',
  unit: '%',
  value: 30,
  source: { ...storageClimate, clause: 'CSA: 30 to 70 % relative humidity' },
  allowed: { from: 0, to: 50 },
}

export const storageToHumidity: Limit<number> = {
  id: 'storage-to-humidity',
  title: 'Dampest sterile store',
  unit: '%',
  value: 60,
  source: { ...storageClimate, clause: 'ASHRAE 170: at most 60 % relative humidity' },
  allowed: { from: 40, to: 75 },
}

export const storingLimits = Object.freeze([storageToC, storageFromHumidity, storageToHumidity] as const)
