import { defineRule } from '../../rule.ts'
import { devicesOf } from '../../set-content.ts'
import { insulationStudy } from '../limits.ts'

/** Insulation is tested each time, since eyes miss most faults. */
export const insulationTested = defineRule({
  id: 'insulation-tested',
  says: 'The insulation of an insulated device is tested with high voltage at each inspection.',
  on: ['inspected'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (body.insulation === 'passed' || body.insulation === 'failed') return []
    const insulated = devicesOf(facts, body.round).filter((device) => device.insulated)
    if (insulated.length === 0) return []
    return [
      {
        weight: 'caution',
        says: `The insulation of ${insulated.map((device) => device.name).join(', ')} was not tested. Test it before packing: a crack burns the patient.`,
        source: insulationStudy,
      },
    ]
  },
})
