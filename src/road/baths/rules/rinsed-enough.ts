import { figure } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { rinseCount, rinseLitres, rinseLumenMillilitres, rinseMinutes } from '../limits.ts'

/** What comes out of a bath is rinsed often and long enough. */
export const rinsedEnough = defineRule({
  id: 'rinsed-enough',
  says: 'What comes out of a bath is ready only after enough separate rinses, each long enough and in enough fresh water.',
  on: ['immersion-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const immersion = facts.known(body.immersion)
    if (immersion === undefined || body.outcome !== 'readyForUse') return []
    const { policy } = facts
    const needed = policy.limit(rinseCount)
    const counted = immersion.rinses.filter(
      (rinse) =>
        immersion.ended !== null &&
        rinse.at >= immersion.ended.at &&
        rinse.minutes >= policy.limit(rinseMinutes).value &&
        rinse.litres >= policy.limit(rinseLitres).value &&
        (rinse.lumenMillilitres === null || rinse.lumenMillilitres >= policy.limit(rinseLumenMillilitres).value),
    )
    if (counted.length >= needed.value) return []
    const each = `${figure(policy.limit(rinseMinutes).value)} min in ${figure(policy.limit(rinseLitres).value)} litres`
    return [
      {
        weight: 'stop',
        says: `Rinse again in fresh water, at least ${each} each time: what is left of the chemical harms the patient.`,
        measured: `${counted.length} of ${immersion.rinses.length} rinses count`,
        limit: `${needed.value} rinses`,
        source: needed.source,
      },
    ]
  },
})
