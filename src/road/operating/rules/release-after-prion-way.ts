import type { Facts } from '../../facts.ts'
import type { Policy } from '../../policy.ts'
import { figure, packName } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import { releasedPacks } from '../../sterilising/released-packs.ts'
import type { LoadKnown } from '../../sterilising/load-fold.ts'
import { airRemovalAt } from '../../sterilising/read-in-force.ts'
import { prionGravityC, prionGravityMinutes, prionPrevacuumC, prionPrevacuumMinutes } from '../limits.ts'
import { prionWayOfSet } from '../prion-way-of-set.ts'

/** A pack of a set that may carry prions is released only after a cycle that reaches them, proven by its log. */
export const releaseAfterPrionWay = defineRule({
  id: 'release-after-prion-way',
  says: 'After risky tissue of a patient with prion disease a pack is released only if its cycle was one of the listed ones.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    return releasedPacks(facts, body).flatMap(({ id }) => {
      const found = prionWayOfSet(facts, id)
      if (found === undefined) return []
      if (found.way !== 'prionCycle') return [found.because]
      return load === undefined ? [] : againstCycle(facts, load, packName(facts, id))
    })
  },
})

function againstCycle(facts: Facts, load: LoadKnown, pack: string): readonly Found[] {
  const machine = load.machine === null ? undefined : facts.known(load.machine)
  const report = load.cycle?.report
  const dynamic = machine !== undefined && airRemovalAt(machine, load.cycle?.startedAt ?? facts.now) === 'dynamic'
  const asked = askedOf(dynamic, facts.policy)
  const seconds = report?.holdingSeconds ?? null
  const coldest = report?.minC ?? null
  const shared = { limit: `${asked.celsius} °C, ${asked.minutes} min`, source: asked.source }
  if (machine?.type !== 'steamSteriliser' || seconds === null || coldest === null) {
    return [
      {
        weight: 'notEvaluable',
        says: `${pack}: no log proves a steam cycle that reaches prions. Keep it back.`,
        ...shared,
      },
    ]
  }
  if (seconds >= asked.minutes * 60 && coldest >= asked.celsius) return []
  return [
    {
      weight: 'stop',
      says: `${pack}: the cycle was too cool or too short for prions. Run the prion programme.`,
      measured: `${figure(coldest, 1)} °C, ${figure(seconds / 60, 1)} min`,
      ...shared,
    },
  ]
}

function askedOf(dynamic: boolean, policy: Policy) {
  const minutes = policy.limit(dynamic ? prionPrevacuumMinutes : prionGravityMinutes)
  const celsius = policy.limit(dynamic ? prionPrevacuumC : prionGravityC)
  return { minutes: minutes.value, celsius: celsius.value, source: minutes.source }
}
