import type { Source } from '#units/source.ts'
import { calibrationProposal } from '../consumables/sources.ts'
import type { Instant } from '../instant.ts'
import type { MachineKnown } from './machine-fold.ts'

/** A calibration or a service: in order, past its day, found wrong, or never recorded, and what that puts out of use. */
export interface CareDue {
  readonly what: 'calibration' | 'service'
  readonly state: 'inOrder' | 'overdue' | 'outOfTolerance' | 'notOnRecord'
  readonly dueBy: Instant | null
  /** What may not run until it is done. What is overdue bars nothing, but every load of goods is told of it. */
  readonly putsOut: 'nothing' | 'goods'
  /** Loads since then are in question: those since the last good calibration of a machine that was found wrong. */
  readonly inQuestionSince: Instant | null
  readonly source: Source
}

/** The calibration and the service of a machine at a moment, by the days that were written down when they were done. */
export function careDue(machine: MachineKnown, now: Instant): readonly CareDue[] {
  const { calibration, serviced, lastGoodCalibration } = machine
  const wrong = calibration?.found === 'outOfTolerance'
  return [
    {
      what: 'calibration',
      state: wrong ? 'outOfTolerance' : standOf(calibration, now),
      dueBy: calibration?.nextDueAt ?? null,
      putsOut: wrong ? 'goods' : 'nothing',
      inQuestionSince: wrong ? lastGoodCalibration : null,
      source: calibrationProposal,
    },
    {
      what: 'service',
      state: standOf(serviced, now),
      dueBy: serviced?.nextDueAt ?? null,
      putsOut: 'nothing',
      inQuestionSince: null,
      source: calibrationProposal,
    },
  ]
}

function standOf(done: { readonly nextDueAt: Instant } | null, now: Instant): CareDue['state'] {
  if (done === null) return 'notOnRecord'
  return done.nextDueAt < now ? 'overdue' : 'inOrder'
}
