import { z } from 'zod'
import { ChangedLimits, casePolicy } from '../deciding/case-policy.ts'
import { defineTopic } from '../deciding/topic.ts'
import { antibioticDose, type DoseAnswer } from './antibiotic-dose.ts'
import { antibioticRedose, antibioticTiming } from './antibiotic-timing.ts'
import { Antibiotic, antibiotics } from './antibiotics.ts'
import { idealWeight, prophylaxisBloodLoss, prophylaxisDoses, prophylaxisTiming } from './sources.ts'

export const antibioticTimingTopic = defineTopic({
  topic: 'antibiotic-timing',
  title: 'Was the antibiotic begun in time before incision?',
  decisions: { inTime: 'within the window before incision', early: 'before the window', late: 'after incision' },
  given: z.strictObject({
    drug: Antibiotic,
    minutesBeforeIncision: z.number().describe('From the start of the dose to the incision; below zero: after it'),
    limits: ChangedLimits,
  }),
  sources: [prophylaxisTiming],
  example: { given: { drug: 'vancomycin', minutesBeforeIncision: 100 }, decision: 'inTime' },
  decide({ drug, minutesBeforeIncision, limits }) {
    const { timing, found } = antibioticTiming(drug, minutesBeforeIncision, casePolicy(limits))
    return { decision: timing, findings: found.map((each) => ({ rule: 'antibiotic-in-time', ...each })) }
  },
})

export const antibioticRedoseTopic = defineTopic({
  topic: 'antibiotic-redose',
  title: 'Is another dose of the antibiotic due during the operation?',
  decisions: {
    redose: 'due now, or overdue',
    notYet: 'not due yet',
    noRedose: 'none is needed: the wound is closed, or one dose of this drug is enough',
  },
  given: z.strictObject({
    drug: Antibiotic,
    minutesSinceDose: z.number().nonnegative().describe('From the start of the dose before the operation'),
    woundOpen: z.boolean().describe('The wound is still open at that time'),
    bloodLossMl: z.number().nonnegative().default(0),
    kidneys: z.enum(['healthy', 'failing']).default('healthy'),
    halfLifeShortened: z.boolean().default(false).describe('The drug leaves faster, as with large burns'),
    limits: ChangedLimits,
  }),
  sources: [prophylaxisDoses, prophylaxisBloodLoss],
  example: { given: { drug: 'cefoxitin', minutesSinceDose: 125, woundOpen: true }, decision: 'redose' },
  decide({ limits, ...facts }) {
    const { redose, found } = antibioticRedose(facts, casePolicy(limits))
    return { decision: redose, findings: found.map((each) => ({ rule: 'antibiotic-again', ...each })) }
  },
})

export const antibioticDoseTopic = defineTopic({
  topic: 'antibiotic-dose',
  title: 'How much of an antibiotic does an adult get before an operation?',
  decisions: {
    standardDose: 'the usual dose',
    higherDose: 'more for a heavy patient',
    byWeight: 'so much for each kilogram',
    heightNeeded: 'height and sex are needed to find the weight that counts',
  },
  given: z.strictObject({
    drug: Antibiotic,
    weightKg: z.number().min(30).max(400),
    heightCm: z.number().min(120).max(230).optional(),
    sex: z.enum(['female', 'male']).optional(),
  }),
  sources: [prophylaxisDoses, idealWeight],
  example: { given: { drug: 'cefazolin', weightKg: 125 }, decision: 'higherDose' },
  decide({ drug, ...patient }) {
    const dose = antibioticDose(drug, patient)
    return {
      decision: dose.kind,
      findings: [
        {
          rule: 'antibiotic-dose',
          weight: dose.kind === 'heightNeeded' ? ('notEvaluable' as const) : ('note' as const),
          says: `${antibiotics[drug].name}: ${inWords(dose)}.`,
          ...(dose.kind === 'heightNeeded' ? {} : { measured: grams(dose.mg) }),
          source: prophylaxisDoses,
        },
      ],
    }
  },
})

function inWords(dose: DoseAnswer): string {
  if (dose.kind === 'heightNeeded') return 'give height and sex, since the weight that counts depends on them'
  const counted = dose.dosingKg === null ? '' : ` for ${dose.dosingKg.toFixed(1)} kg`
  return `${grams(dose.mg)}${counted}`
}

function grams(mg: number): string {
  return mg >= 1000 ? `${mg / 1000} g` : `${mg} mg`
}
