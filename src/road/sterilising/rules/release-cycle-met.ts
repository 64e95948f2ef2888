import type { Policy } from '../../policy.ts'
import { defineRule, type Found } from '../../rule.ts'
import { cycleMisfit } from '../cycle-misfit.ts'
import { releasedPacks } from '../released-packs.ts'
import { releaseTable } from '../sources.ts'
import type { LoadKnown } from '../load-fold.ts'

/** A pack is released only if its cycle's record proves the cycle. */
export const releaseCycleMet = defineRule({
  id: 'release-cycle-met',
  says: 'A pack is released only if the record of its cycle is there, is of the right program and time, and meets all criteria.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    if (load === undefined || releasedPacks(facts, body).length === 0) return []
    return againstCycle(load, facts.policy)
  },
})

function againstCycle(load: LoadKnown, policy: Policy): readonly Found[] {
  if (load.cycle === null) {
    return [
      {
        weight: 'notEvaluable',
        says: 'The log of this cycle is not read in. Read it in, then release.',
        source: releaseTable,
      },
    ]
  }
  const misfit = cycleMisfit(load, load.cycle, policy)
  switch (load.cycle.report.verdict) {
    case 'met':
      return misfit
    case 'notMet':
      return [
        ...misfit,
        {
          weight: 'stop',
          says: 'The cycle did not meet its criteria. Reject every pack of this load.',
          measured: failing(load),
          source: releaseTable,
        },
      ]
    case 'notEvaluable':
      return [
        ...misfit,
        {
          weight: 'notEvaluable',
          says: 'The log does not prove the cycle: something is missing in it. Keep the load back until it is found; otherwise reject it.',
          measured: failing(load),
          source: releaseTable,
        },
      ]
  }
}

function failing(load: LoadKnown): string {
  const report = load.cycle?.report
  const named = report?.criteria.filter((criterion) => criterion.result === report.verdict) ?? []
  const text = named.map((criterion) => `${criterion.id} ${criterion.measured ?? 'unknown'}`).join(', ')
  return text === '' ? (report?.verdict ?? 'unknown') : text
}
