import { defineTopic } from '../deciding/topic.ts'
import { againstImmediateUse, ImmediateUse } from './immediate-use.ts'
import { immediateUse, immediateUseImplant, loanGuidance } from './sources.ts'

export const immediateUseTopic = defineTopic({
  topic: 'immediate-use',
  title: 'Whether steam for immediate use is allowed',
  decisions: {
    allowed: 'Every condition is met. The exposure is judged with the cycle.',
    refused: 'A condition is not met.',
    hold: 'Something that decides is not stated.',
  },
  given: ImmediateUse,
  sources: [immediateUse, immediateUseImplant, loanGuidance],
  example: { given: { reason: 'lateLoan' }, decision: 'refused' },
  decide(asked) {
    const findings = againstImmediateUse(asked)
    if (findings.some((each) => each.weight === 'stop')) return { decision: 'refused', findings }
    return { decision: findings.length > 0 ? 'hold' : 'allowed', findings }
  },
})
