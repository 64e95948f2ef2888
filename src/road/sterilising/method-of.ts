import type { MachineKnown } from './machine-fold.ts'

/** Machines that a unit may own. */
export const machineTypes = [
  'steamSteriliser',
  'ethyleneOxideSteriliser',
  'hydrogenPeroxideSteriliser',
  'formaldehydeSteriliser',
  'dryHeatSteriliser',
  'peraceticProcessor',
  'aerator',
  'ultrasonicBath',
  'washer',
] as const
export type MachineType = (typeof machineTypes)[number]

/** Methods that sterilise packs in a chamber, with tests and indicators of their own. */
export const chamberMethods = ['steam', 'ethyleneOxide', 'hydrogenPeroxide', 'formaldehyde', 'dryHeat'] as const
export type ChamberMethod = (typeof chamberMethods)[number]

/** The method by which a machine sterilises; undefined for one that does not. */
export function methodOf({ type }: Pick<MachineKnown, 'type'>): ChamberMethod | undefined {
  switch (type) {
    case 'steamSteriliser':
      return 'steam'
    case 'ethyleneOxideSteriliser':
      return 'ethyleneOxide'
    case 'hydrogenPeroxideSteriliser':
      return 'hydrogenPeroxide'
    case 'formaldehydeSteriliser':
      return 'formaldehyde'
    case 'dryHeatSteriliser':
      return 'dryHeat'
    case 'peraceticProcessor':
    case 'aerator':
    case 'ultrasonicBath':
    case 'washer':
      return undefined
  }
}

export const machineTypeOf: Readonly<Record<ChamberMethod, MachineType>> = Object.freeze({
  steam: 'steamSteriliser',
  ethyleneOxide: 'ethyleneOxideSteriliser',
  hydrogenPeroxide: 'hydrogenPeroxideSteriliser',
  formaldehyde: 'formaldehydeSteriliser',
  dryHeat: 'dryHeatSteriliser',
})
