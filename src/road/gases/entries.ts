import { z } from 'zod'
import { Celsius } from '#units/quantities.ts'
import { defineKind } from '../kind.ts'
import { subjectOf } from '../subject.ts'
import { ResidueFigures } from './residue.ts'
import { ExposureFigures } from './room-exposure.ts'

export const cancelCauses = [
  'moisture',
  'pressure',
  'concentration',
  'temperature',
  'power',
  'operator',
  'unknown',
] as const

export const cycleCancelled = defineKind({
  kind: 'cycle-cancelled',
  stage: 'sterilising',
  nature: 'fact',
  title: 'Cycle cancelled',
  body: z.strictObject({
    load: subjectOf('load'),
    cause: z.enum(cancelCauses),
    note: z.string().min(1).max(500).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.load],
})

export const aerationPlaces = ['sameChamber', 'aerator', 'ventilatedPlace'] as const

export const aerationStarted = defineKind({
  kind: 'aeration-started',
  stage: 'sterilising',
  nature: 'fact',
  title: 'Aeration started',
  /** A second start begins the count anew: two short aerations do not add up. */
  body: z.strictObject({
    load: subjectOf('load'),
    place: z.enum(aerationPlaces),
    machine: subjectOf('machine').optional(),
    setC: Celsius,
    /** The longest time that a maker of a device in the load asks. */
    makerHours: z.number().positive().max(1000).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.load],
  mentions: (body) => (body.machine === undefined ? [] : [body.machine]),
  links: (body) =>
    body.machine === undefined ? [] : [{ from: body.load, relation: 'aeratedIn' as const, to: body.machine }],
})

export const aerationEnded = defineKind({
  kind: 'aeration-ended',
  stage: 'sterilising',
  nature: 'fact',
  title: 'Aeration ended',
  body: z.strictObject({
    load: subjectOf('load'),
    /** The coldest that it was throughout. */
    lowestC: Celsius,
  }),
  creates: () => [],
  subjects: (body) => [body.load],
})

export const aerationStops = ['power', 'fault', 'temperature', 'doorOpened', 'operator', 'unknown'] as const

/** The moment at which it stopped is the moment of the entry. */
export const aerationStopped = defineKind({
  kind: 'aeration-stopped',
  stage: 'sterilising',
  nature: 'fact',
  title: 'Aeration cancelled or interrupted',
  body: z.strictObject({
    load: subjectOf('load'),
    cause: z.enum(aerationStops),
    note: z.string().min(1).max(500).optional(),
  }),
  creates: () => [],
  subjects: (body) => [body.load],
})

export const residueTested = defineKind({
  kind: 'residue-tested',
  stage: 'sterilising',
  nature: 'fact',
  title: 'Residues of gas tested',
  body: z.strictObject({
    load: subjectOf('load'),
    device: subjectOf('device').optional(),
    figures: ResidueFigures,
  }),
  creates: () => [],
  subjects: (body) => [body.load],
  mentions: (body) => (body.device === undefined ? [] : [body.device]),
})

export const exposureMeasured = defineKind({
  kind: 'exposure-measured',
  stage: 'people',
  nature: 'fact',
  title: 'Exposure to a vapour measured',
  body: z.strictObject({
    person: subjectOf('person'),
    machine: subjectOf('machine').optional(),
    place: z.string().min(1).max(80),
    figures: ExposureFigures,
  }),
  creates: () => [],
  subjects: (body) => [body.person],
  mentions: (body) => (body.machine === undefined ? [] : [body.machine]),
})

export const gasKinds = [
  cycleCancelled,
  aerationStarted,
  aerationEnded,
  aerationStopped,
  residueTested,
  exposureMeasured,
] as const
