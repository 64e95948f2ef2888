import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { cdcMonitoring } from '../sources.ts'

/** Every load with an implant carries a biological indicator. */
export const loadImplantWithBiological = defineRule({
  id: 'load-implant-with-biological',
  says: 'A load with an implant carries a biological indicator.',
  on: ['load-built'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (body.challenge?.biologicalLot !== undefined) return []
    const implants = body.rounds.filter((id) => facts.known(id)?.sealed?.implant === true)
    return implants.map((id) => ({
      weight: 'stop' as const,
      says: `${packName(facts, id)} holds an implant and the load has no biological indicator. Put one in before the start.`,
      source: cdcMonitoring,
    }))
  },
})
