import { packName } from '../../naming.ts'
import { inspectionFaults } from '../inspection-faults.ts'
import { defineRule } from '../../rule.ts'
import { setRecord } from '../../packing/limits.ts'

/** What is done after an inspection fits what was seen. */
export const inspectionOutcomeFits = defineRule({
  id: 'inspection-outcome-fits',
  says: 'After an inspection soil and wet go back to the wash, and what is broken or fails its insulation test goes to repair or is retired.',
  on: ['inspected'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (body.next === undefined) return []
    const { broken, unclean } = inspectionFaults(body)
    const name = packName(facts, body.round)
    const wrong =
      broken && (body.next === 'pack' || body.next === 'washAgain')
        ? `${name}: what is broken or fails its insulation test is repaired or retired, not used.`
        : unclean && body.next === 'pack'
          ? `${name}: soil or wet was seen. Wash and dry again.`
          : null
    return wrong === null ? [] : [{ weight: 'stop', says: wrong, measured: body.next, source: setRecord }]
  },
})
