import type { Bodies } from '../kinds.ts'
import { minutesBetween } from '../instant.ts'
import { spoken } from '../naming.ts'
import type { Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import { cycleWithinHours } from '../tracing/limits.ts'
import type { LoadKnown } from './load-fold.ts'
import { releaseTable } from './sources.ts'

/** What speaks against a log being that of this load: its program, its day, or times that cannot be. */
export function cycleMisfit(
  load: Pick<LoadKnown, 'program' | 'builtAt'>,
  cycle: Pick<Bodies['cycle-logged'], 'program' | 'startedAt' | 'endedAt'>,
  policy: Policy,
): readonly Found[] {
  if (load.builtAt === null) return []
  const found: Found[] = []
  if (load.program !== cycle.program) {
    found.push({
      weight: 'stop',
      says: 'This log is of another program than the load was built for. Choose the right log; if the wrong program ran, reject the load.',
      measured: cycle.program,
      limit: load.program,
      source: releaseTable,
    })
  }
  const limit = policy.limit(cycleWithinHours)
  const apart = Math.abs(minutesBetween(load.builtAt, cycle.endedAt))
  if (apart > limit.value * 60) {
    found.push({
      weight: 'stop',
      says: 'This log is of another time than the load. Choose the right log, or correct when the load was built.',
      measured: `${spoken(apart)} apart`,
      limit: `${limit.value} h`,
      source: limit.source,
    })
  }
  if (cycle.endedAt < cycle.startedAt) {
    found.push({
      weight: 'stop',
      says: 'This cycle ends before it starts. Check the clock of the steriliser.',
      source: releaseTable,
    })
  }
  return found
}
