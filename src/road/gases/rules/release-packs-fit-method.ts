import { defineRule } from '../../rule.ts'
import { releasedPacks } from '../../sterilising/released-packs.ts'
import { packsAgainstMethod } from '../packs-fit-method.ts'

/** A pack whose wrap kept the gas out is not released. */
export const releasePacksFitMethod = defineRule({
  id: 'release-packs-fit-method',
  says: 'A pack is released only when its wrap suits the method by which it was sterilised.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check: (facts, { body }) =>
    packsAgainstMethod(
      facts,
      facts.known(body.load)?.machine ?? null,
      releasedPacks(facts, body).map((pack) => pack.id),
    ),
})
