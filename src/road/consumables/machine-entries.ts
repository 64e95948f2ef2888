import { z } from 'zod'
import { Instant } from '../instant.ts'
import { defineKind } from '../kind.ts'
import { subjectOf } from '../subject.ts'

export const machineCalibrated = defineKind({
  kind: 'machine-calibrated',
  stage: 'consumables',
  nature: 'fact',
  title: 'Machine calibrated',
  body: z.strictObject({
    machine: subjectOf('machine'),
    what: z.string().min(3).max(120),
    /** As it was found, before anything was adjusted: that is what its loads ran on. */
    found: z.enum(['withinTolerance', 'outOfTolerance']),
    nextDueAt: Instant,
  }),
  creates: () => [],
  subjects: (body) => [body.machine],
})

export const machineServiced = defineKind({
  kind: 'machine-serviced',
  stage: 'consumables',
  nature: 'fact',
  title: 'Machine serviced',
  body: z.strictObject({ machine: subjectOf('machine'), what: z.string().min(3).max(200), nextDueAt: Instant }),
  creates: () => [],
  subjects: (body) => [body.machine],
})

export const machineCareKinds = [machineCalibrated, machineServiced] as const
