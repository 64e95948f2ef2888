import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { singleUseGuidance } from '../limits.ts'

/** A device for one use is not packed again. */
export const packedWithoutSingleUse = defineRule({
  id: 'packed-without-single-use',
  says: 'A device that its maker sells for one use is not packed again.',
  on: ['pack-sealed'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const single = body.counted
      .filter((line) => line.count > 0)
      .flatMap((line) => facts.known(line.device) ?? [])
      .filter((device) => device.singleUse && device.licensedRoute === undefined)
    return single.map((device) => ({
      weight: 'stop' as const,
      says: `${packName(facts, body.round)}: ${device.name} is for one use only. Take it out and throw it away.`,
      source: singleUseGuidance,
    }))
  },
})
