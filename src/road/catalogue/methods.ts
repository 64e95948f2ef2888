import type { Source } from '#units/source.ts'
import { bathTimes, gasTimes, liquidPeracetic, otherTimes, peroxideTimes, steamTimes } from './sources.ts'

/** Every method that a unit may own. What is not on this list is not offered; see `not-offered.ts`. */
export const methods = [
  'steam',
  'dryHeat',
  'ethyleneOxide',
  'hydrogenPeroxide',
  'formaldehyde',
  'peraceticLiquid',
  'bathSterilise',
  'bathDisinfect',
] as const
export type Method = (typeof methods)[number]

/** What every use of a method is like, whatever the machine. */
export interface MethodFacts {
  readonly name: string
  readonly kills: 'sterile' | 'highLevel'
  /** Whether a pack keeps what the method gave it: a bath's work ends when the device leaves the water. */
  readonly stored: boolean
  readonly wet: boolean
  /** The lowest temperature at which the process is usually run; what must be borne at the least. */
  readonly fromC: number
  /** From the door closing to a device that may be used, aeration included, as usually met. */
  readonly minutes: number
  readonly source: Source
}

export const methodFacts: Readonly<Record<Method, MethodFacts>> = {
  steam: { name: 'Steam', kills: 'sterile', stored: true, wet: true, fromC: 121, minutes: 60, source: steamTimes },
  dryHeat: {
    name: 'Dry heat',
    kills: 'sterile',
    stored: true,
    wet: false,
    fromC: 160,
    minutes: 240,
    source: otherTimes,
  },
  ethyleneOxide: {
    name: 'Ethylene oxide',
    kills: 'sterile',
    stored: true,
    wet: false,
    fromC: 37,
    minutes: 900,
    source: gasTimes,
  },
  hydrogenPeroxide: {
    name: 'Hydrogen peroxide gas',
    kills: 'sterile',
    stored: true,
    wet: false,
    fromC: 37,
    minutes: 55,
    source: peroxideTimes,
  },
  formaldehyde: {
    name: 'Formaldehyde with steam',
    kills: 'sterile',
    stored: true,
    wet: true,
    fromC: 55,
    minutes: 106,
    source: otherTimes,
  },
  peraceticLiquid: {
    name: 'Peracetic acid in a machine',
    kills: 'sterile',
    stored: false,
    wet: true,
    fromC: 50,
    minutes: 30,
    source: liquidPeracetic,
  },
  bathSterilise: {
    name: 'Bath to sterilise',
    kills: 'sterile',
    stored: false,
    wet: true,
    fromC: 20,
    minutes: 600,
    source: bathTimes,
  },
  bathDisinfect: {
    name: 'Bath to disinfect, high level',
    kills: 'highLevel',
    stored: false,
    wet: true,
    fromC: 20,
    minutes: 45,
    source: bathTimes,
  },
}

export function isBath(method: Method): boolean {
  return method === 'bathSterilise' || method === 'bathDisinfect'
}

/** Methods that put the device into a liquid. */
export function immerses(method: Method): boolean {
  return isBath(method) || method === 'peraceticLiquid'
}

/** Methods that empty the chamber of air. */
export function drawsVacuum(method: Method): boolean {
  switch (method) {
    case 'steam':
    case 'ethyleneOxide':
    case 'hydrogenPeroxide':
    case 'formaldehyde':
      return true
    case 'dryHeat':
    case 'peraceticLiquid':
    case 'bathSterilise':
    case 'bathDisinfect':
      return false
  }
}
