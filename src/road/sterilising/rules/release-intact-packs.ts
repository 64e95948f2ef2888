import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { releasedPacks } from '../released-packs.ts'
import { unverifiedPractice } from '../sources.ts'

/** A pack is released only dry and whole. */
export const releaseIntactPacks = defineRule({
  id: 'release-intact-packs',
  says: 'A pack is released only if it is dry and whole.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check: (facts, { body }) =>
    releasedPacks(facts, body).flatMap(({ id, round }) => {
      if (round === undefined || round.damage === null) return []
      const wet = round.damage.condition === 'wet'
      return [
        {
          weight: 'stop' as const,
          says: wet
            ? `${packName(facts, id)} came out wet: it is not sterile. Reject it, and look at how the load was packed and dried.`
            : `${packName(facts, id)} is damaged: it is not sterile. Reject it.`,
          measured: round.damage.condition,
          source: unverifiedPractice,
        },
      ]
    }),
})
