import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { releaseTable } from '../sources.ts'

/** A load is built of sealed packs. */
export const loadOfSealedPacks = defineRule({
  id: 'load-of-sealed-packs',
  says: 'A load is built of packs that are sealed.',
  on: ['load-built'],
  exceptionAllowed: false,
  check: (facts, { body }) =>
    body.rounds
      .filter((id) => facts.known(id)?.sealed === null)
      .map((id) => ({
        weight: 'stop' as const,
        says: `${packName(facts, id)} is not recorded as sealed. Take it out and pack it, or record the packing.`,
        source: releaseTable,
      })),
})
