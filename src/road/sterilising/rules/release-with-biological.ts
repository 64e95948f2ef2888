import { machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { biologicalSchedule, parametricAllowed } from '../biological-schedule.ts'
import { biologicalOutcome, isReadTooEarly } from '../load-fold.ts'
import { methodOf } from '../method-of.ts'
import { releasedPacks } from '../released-packs.ts'
import { parametricRelease } from '../sources.ts'
import { wantedIncubation } from '../wanted-incubation.ts'

/** Where the policy wants a biological indicator in each load, it has shown no growth before release. */
export const releaseWithBiological = defineRule({
  id: 'release-with-biological',
  says: 'Where the policy wants a biological indicator in every load, a pack is released only when it shows no growth; on parameters alone only where the policy allows that and every variable is recorded independently.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    const machine = load === undefined || load.machine === null ? undefined : facts.known(load.machine)
    const method = machine === undefined ? undefined : methodOf(machine)
    if (load === undefined || machine === undefined || method === undefined) return []
    if (releasedPacks(facts, body).length === 0) return []
    const { rhythm, source } = biologicalSchedule(method, facts.policy)
    const wanted = wantedIncubation(machine, facts.policy, (lot) => facts.known(lot))
    const outcome = biologicalOutcome(load, wanted)
    if (rhythm !== 'each load' || outcome === 'negative' || outcome === 'positive') return []
    if (parametricAllowed(method, facts.policy) && load.cycle?.report.verdict === 'met') {
      if (machine.independentRecord === true) {
        return [{ weight: 'note', says: 'Released on the parameters of the cycle alone.', source: parametricRelease }]
      }
      return [
        {
          weight: 'stop',
          says: `The policy allows release on parameters, but ${machineName(facts, machine.id)} does not record every variable by a sensor of its own. Wait for the biological indicator.`,
          source: parametricRelease,
        },
      ]
    }
    return [
      {
        weight: 'stop',
        says: isReadTooEarly(load, wanted)
          ? readTooEarly
          : saysOf(outcome, load.challenge?.biologicalLot !== undefined),
        measured: outcome === 'invalid' ? 'invalid' : 'not read',
        limit: 'no growth in every load',
        source,
      },
    ]
  },
})

const readTooEarly =
  'The biological indicator was read before its time: it counts as not tested. Quarantine the load and read it again when its time is over.'

function saysOf(outcome: 'notRead' | 'invalid', carried: boolean): string {
  if (outcome === 'invalid')
    return 'The biological result is invalid: it counts as not tested. Quarantine the load and repeat the test.'
  return carried
    ? 'The biological indicator of this load is not read yet. Quarantine the load until it shows no growth.'
    : 'This load carried no biological indicator, and its method needs one in every load. Quarantine it; run it again with one.'
}
