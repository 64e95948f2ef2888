import { defineRule, type Found } from '../../rule.ts'
import { releasedPacks } from '../released-packs.ts'
import { releaseTable } from '../sources.ts'
import type { LoadKnown } from '../load-fold.ts'

/** A pack is released only if its cycle's record proves the cycle. */
export const releaseCycleMet = defineRule({
  id: 'release-cycle-met',
  says: 'A pack is released only if the record of its cycle is there, is of the right program, and meets all criteria.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    if (load === undefined || releasedPacks(facts, body).length === 0) return []
    return againstCycle(load).map((found) => ({ ...found, source: releaseTable }))
  },
})

function againstCycle(load: LoadKnown): readonly Omit<Found, 'source'>[] {
  if (load.cycle === null) {
    return [{ weight: 'notEvaluable', says: 'The log of this cycle is not read in. Read it in, then release.' }]
  }
  const { report, program } = load.cycle
  const otherProgram: Omit<Found, 'source'>[] =
    program === load.program
      ? []
      : [
          {
            weight: 'stop',
            says: 'The log is of another program than the load was built for. Read in the right log, or reject the load.',
            measured: program,
            limit: load.program,
          },
        ]
  switch (report.verdict) {
    case 'met':
      return otherProgram
    case 'notMet':
      return [
        ...otherProgram,
        {
          weight: 'stop',
          says: 'The cycle did not meet its criteria. Reject every pack of this load.',
          measured: failing(load),
        },
      ]
    case 'notEvaluable':
      return [
        ...otherProgram,
        {
          weight: 'notEvaluable',
          says: 'The log does not prove the cycle: something is missing in it. Keep the load back until it is found; otherwise reject it.',
          measured: failing(load),
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
