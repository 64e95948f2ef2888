import { defineRule } from '../../rule.ts'
import { devicesAgainstMachine } from '../devices-against-machine.ts'

/** A pack that went through a method which its maker does not list is not released. */
export const releaseByMakersList = defineRule({
  id: 'release-by-makers-list',
  says: 'A pack is released only if the makers of its devices list the method of its load, and they bear it.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const load = facts.known(body.load)
    const rounds = body.packs.filter((pack) => pack.outcome === 'released').map((pack) => pack.round)
    const at = load?.cycle?.startedAt ?? load?.builtAt ?? happenedAt
    return devicesAgainstMachine(facts, load?.machine ?? null, { rounds, at })
  },
})
