import { defineRule } from '../../rule.ts'
import { mmwrControl } from '../sources.ts'

/** No growth counts only beside a control of the same lot that grew. */
export const biologicalControlGrew = defineRule({
  id: 'biological-control-grew',
  says: 'No growth counts only beside a control of the same lot that grew.',
  on: ['biological-read'],
  exceptionAllowed: false,
  check(_facts, { body }) {
    if (body.result === 'growth') return []
    const why = invalidBecause(body)
    if (why === undefined) return []
    return [
      {
        weight: 'notEvaluable',
        says: `This result is invalid: ${why}. Repeat the test with a control of the same lot; an implant waits.`,
        source: mmwrControl,
      },
    ]
  },
})

function invalidBecause(read: {
  lot: string
  control: { lot: string; result: 'growth' | 'noGrowth' } | null
}): string | undefined {
  if (read.control === null) return 'there is no control'
  if (read.control.lot !== read.lot) return 'the control is of another lot'
  return read.control.result === 'growth' ? undefined : 'the control did not grow, so the lot or the incubator is dead'
}
