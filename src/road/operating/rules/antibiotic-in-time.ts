import { minutesBetween } from '../../instant.ts'
import { defineRule } from '../../rule.ts'
import { antibioticTiming } from '../antibiotic-timing.ts'
import { Antibiotic, antibiotics } from '../antibiotics.ts'

/** The antibiotic is begun in time before incision. */
export const antibioticInTime = defineRule({
  id: 'antibiotic-in-time',
  says: 'The antibiotic is begun within its window before the operation starts.',
  on: ['case-recorded'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (body.antibiotic === null) return []
    const name = body.antibiotic.drug.trim().toLowerCase()
    const drug = Antibiotic.options.find((id) => antibiotics[id].name === name)
    const before = Math.round(minutesBetween(body.antibiotic.startedAt, body.startedAt))
    return antibioticTiming(drug, before, facts.policy).found
  },
})
