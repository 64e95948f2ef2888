import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { devicesOf } from '../../set-content.ts'
import { insulationStudy } from '../../cleaning/limits.ts'

/** A pack with insulated devices is sealed only if their insulation was tested. */
export const packedWithInsulationTested = defineRule({
  id: 'packed-with-insulation-tested',
  says: 'A pack with an insulated device is sealed only if the insulation was tested and passed.',
  on: ['pack-sealed'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const inspection = facts.known(body.round)?.inspection ?? null
    if (inspection === null || inspection.insulation === 'passed' || inspection.insulation === 'failed') return []
    const insulated = devicesOf(facts, body.round).filter((device) => device.insulated)
    if (insulated.length === 0) return []
    return [
      {
        weight: 'stop',
        says: `${packName(facts, body.round)}: the insulation of ${insulated.map((device) => device.name).join(', ')} was not tested. Test it, then pack.`,
        source: insulationStudy,
      },
    ]
  },
})
