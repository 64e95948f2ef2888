import { defineRule } from '../../rule.ts'
import { controlMisfit } from '../invalid-reading.ts'
import { mmwrControl } from '../sources.ts'

/** No growth counts only beside a control of the same lot that grew. */
export const biologicalControlGrew = defineRule({
  id: 'biological-control-grew',
  says: 'No growth counts only beside a control of the same lot that grew.',
  on: ['biological-read'],
  exceptionAllowed: false,
  check(_facts, { body }) {
    if (body.result === 'growth') return []
    const why = controlMisfit(body)
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
