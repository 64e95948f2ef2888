import { prionBarred } from '../../catalogue/sources.ts'
import { defineRule, type Found } from '../../rule.ts'
import { methodOf } from '../../sterilising/method-of.ts'
import type { Facts } from '../../facts.ts'
import type { SubjectId } from '../../subject.ts'
import { prionWayOfSet } from '../prion-way-of-set.ts'

/** A set that may carry prions is kept apart, destroyed, or goes a listed way; every step says so. */
export const prionWayKept = defineRule({
  id: 'prion-way-kept',
  says: 'A set used on risky tissue of a patient who may carry prions waits, is destroyed, or goes one of the listed ways.',
  on: ['soak-started', 'wash-recorded', 'immersion-started', 'load-built'],
  exceptionAllowed: false,
  check(facts, entry) {
    switch (entry.kind) {
      case 'soak-started':
        return waysOf(facts, [entry.body.round])
      case 'wash-recorded':
        return waysOf(facts, entry.body.rounds)
      case 'immersion-started':
        return waysOf(facts, entry.body.rounds, 'No bath reaches prions.')
      case 'load-built': {
        const machine = facts.known(entry.body.machine)
        const steam = machine !== undefined && methodOf(machine) === 'steam'
        return waysOf(facts, entry.body.rounds, steam ? undefined : 'The method of this machine does not reach prions.')
      }
    }
  },
})

function waysOf(facts: Facts, rounds: readonly SubjectId<'round'>[], barred?: string): readonly Found[] {
  return rounds.flatMap((round) => {
    const found = prionWayOfSet(facts, round)
    if (found === undefined) return []
    if (barred === undefined) return [found.because]
    return [found.because, { weight: 'stop' as const, says: barred, source: prionBarred }]
  })
}
