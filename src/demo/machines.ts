import type { Bodies } from '#road/kinds.ts'

type Machine = Bodies['machine-registered']
export type MachineId = Machine['machine']

/** How the columns of both sterilisers' logs are read. */
export const steamLogMap = {
  time: { column: 'elapsed', format: 'seconds' },
  pressure: { column: 'chamber pressure', unit: 'kPa', gauge: false },
  reference: { column: 'drain', unit: 'C' },
} as const

export const steamProgram = 'porous-134'
export const airRemovalProgram = 'air-removal-134'
export const washerProgram = 'instruments-90'

export interface Steriliser {
  readonly id: MachineId
  readonly key: 'a' | 'b'
  readonly chamberLitres: number
  /** Packs that it holds when it is loaded as taught. */
  readonly holds: number
}

export const steriliserA: Steriliser = { id: 'machine:a', key: 'a', chamberLitres: 450, holds: 6 }
export const steriliserB: Steriliser = { id: 'machine:b', key: 'b', chamberLitres: 160, holds: 3 }
export const washer: MachineId = 'machine:w'
export const gasSteriliser: MachineId = 'machine:g'
export const gasProgram = 'ethylene-oxide'
export const ultrasonicBath: MachineId = 'machine:u'

export const machines: readonly Machine[] = [
  {
    machine: steriliserA.id,
    name: 'Steriliser A (large)',
    type: 'steamSteriliser',
    airRemoval: 'dynamic',
    chamberLitres: steriliserA.chamberLitres,
    programs: [steamProgram, airRemovalProgram],
    logMap: steamLogMap,
  },
  {
    machine: steriliserB.id,
    name: 'Steriliser B (small)',
    type: 'steamSteriliser',
    airRemoval: 'dynamic',
    chamberLitres: steriliserB.chamberLitres,
    programs: [steamProgram, airRemovalProgram],
    logMap: steamLogMap,
  },
  {
    machine: washer,
    name: 'Washer',
    type: 'washer',
    airRemoval: 'none',
    chamberLitres: 300,
    programs: [washerProgram],
  },
  {
    machine: gasSteriliser,
    name: 'Gas steriliser',
    type: 'ethyleneOxideSteriliser',
    airRemoval: 'none',
    chamberLitres: 130,
    programs: [gasProgram],
  },
  {
    machine: ultrasonicBath,
    name: 'Ultrasonic bath',
    type: 'ultrasonicBath',
    airRemoval: 'none',
    chamberLitres: 30,
    programs: ['ultrasound'],
  },
]
