import type { Bodies } from '#road/kinds.ts'
import { gasSteriliser, steriliserA, steriliserB, washer } from './machines.ts'

type Hours = Bodies['hours-set']['hours']

const theatre = { kind: 'theatre', opens: '08:00', closes: '16:00', mustClose: '18:00' } as const
const machine = { kind: 'machine', from: '07:00', to: '20:00' } as const

/** When the unit works: two theatres, two people at each place, and each machine that a set goes through. */
export const workingHours: readonly Hours[] = [
  { ...theatre, theatre: 'Theatre 1' },
  { ...theatre, theatre: 'Theatre 2' },
  { kind: 'staff', place: 'washRoom', count: 2, from: '07:00', to: '20:00' },
  { kind: 'staff', place: 'packing', count: 2, from: '07:30', to: '20:00' },
  { ...machine, machine: washer, places: 10, runMinutes: 60 },
  { ...machine, machine: steriliserA.id, places: steriliserA.holds },
  { ...machine, machine: steriliserB.id, places: steriliserB.holds },
  { ...machine, machine: gasSteriliser, to: '16:00' },
]
