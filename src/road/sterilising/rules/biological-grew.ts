import { defineRule, type Found } from '../../rule.ts'
import { cdcPositiveIndicator, st79Release } from '../sources.ts'

/** Growth is a failure, whatever the control did. */
export const biologicalGrew = defineRule({
  id: 'biological-grew',
  says: 'Growth in a biological indicator is a failure: the steriliser stops and a recall opens.',
  on: ['biological-read'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (body.result === 'noGrowth') return []
    const load = facts.known(body.load)
    const found: Found[] = [
      {
        weight: 'stop',
        says: 'The indicator grew. Take the steriliser out of service now, tell infection control, keep the packs back, and run three repeat tests. A recall is open.',
        source: cdcPositiveIndicator,
      },
    ]
    if (body.control?.result === 'noGrowth') {
      found.push({
        weight: 'caution',
        says: 'The control did not grow although the indicator did. The failure stands; check the lot and the incubator too.',
        source: st79Release,
      })
    }
    if (load?.decision?.earlyImplant !== undefined) {
      found.push({
        weight: 'stop',
        says: 'An implant of this load was released early. Tell the surgeon and infection control at once and find the patient by the trace.',
        source: st79Release,
      })
    }
    return found
  },
})
