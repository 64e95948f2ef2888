import { mycobacteriaBefore } from '../../operating/patients-before.ts'
import { defineRule } from '../../rule.ts'
import { noGlutaraldehydeForMycobacteria } from '../patient-limits.ts'
import { useAtDecision, useAtStart } from '../use-from-facts.ts'

/** Glutaraldehyde is not relied on against mycobacteria. */
export const bathNotForMycobacteria = defineRule({
  id: 'bath-not-for-mycobacteria',
  says: 'Glutaraldehyde is not relied on where mycobacteria are suspected.',
  on: ['immersion-started', 'immersion-decided'],
  exceptionAllowed: false,
  check(facts, entry) {
    if (entry.kind === 'immersion-started') {
      const use = useAtStart(facts, entry.body, entry.happenedAt)
      const mycobacteriaSuspected = entry.body.mycobacteriaSuspected || mycobacteriaBefore(facts, entry.body.rounds)
      return use === undefined ? [] : noGlutaraldehydeForMycobacteria(use.product, { mycobacteriaSuspected })
    }
    const use = entry.body.outcome === 'readyForUse' ? useAtDecision(facts, entry.body, entry.happenedAt) : undefined
    const started = facts.known(entry.body.immersion)?.started ?? null
    if (use === undefined || started === null) return []
    const mycobacteriaSuspected = started.mycobacteriaSuspected || mycobacteriaBefore(facts, entry.body.rounds)
    return noGlutaraldehydeForMycobacteria(use.product, { mycobacteriaSuspected })
  },
})
