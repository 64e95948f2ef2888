import { z } from 'zod'
import { ChangedLimits, casePolicy } from '../deciding/case-policy.ts'
import { type Decided, defineTopic } from '../deciding/topic.ts'
import type { Finding } from '../finding.ts'
import { WoundClass } from './entries.ts'
import { lowRiskCholecystectomy } from './limits.ts'
import { Procedure, procedureFacts } from './procedures.ts'
import {
  byProcedure,
  dirtyIsTreated,
  highRiskGallBladder,
  lowRiskGallBladder,
  moreRiskGallBladder,
  noDoseAfterClosure,
} from './sources.ts'

/** Risks of a gall-bladder operation that ask for prophylaxis; those from memory are marked in their source. */
const risks = {
  olderThan70: highRiskGallBladder,
  diabetes: highRiskGallBladder,
  longerThan120Min: highRiskGallBladder,
  acuteCholecystitis: highRiskGallBladder,
  bileOrStoneSpill: highRiskGallBladder,
  jaundice: highRiskGallBladder,
  weakImmunity: highRiskGallBladder,
  pregnancy: moreRiskGallBladder,
  conversion: moreRiskGallBladder,
  asa3OrMore: moreRiskGallBladder,
  colicWithin30Days: moreRiskGallBladder,
  reoperationWithinMonth: moreRiskGallBladder,
  gallBladderNotWorking: moreRiskGallBladder,
  prosthesis: moreRiskGallBladder,
} as const
const riskNames = Object.keys(risks) as [keyof typeof risks, ...(keyof typeof risks)[]]

export const prophylaxisTopic = defineTopic({
  topic: 'prophylaxis',
  title: 'Is an antibiotic given to prevent infection, and when does it end?',
  decisions: {
    give: 'one dose before incision',
    none: 'no prophylaxis',
    notNeeded: 'no further dose after closure',
    treatment: 'the wound is dirty: treat the infection, this is not prophylaxis',
  },
  given: z.strictObject({
    procedure: Procedure,
    woundClass: WoundClass.optional().describe('Left out: the usual class of the operation'),
    risks: z.array(z.enum(riskNames)).default([]).describe('Risks of the patient, for the gall bladder'),
    plannedAfterClosure: z.boolean().default(false).describe('The dose asked about comes after the wound is closed'),
    drain: z.boolean().default(false),
    limits: ChangedLimits,
  }),
  sources: [
    noDoseAfterClosure,
    dirtyIsTreated,
    lowRiskGallBladder,
    highRiskGallBladder,
    moreRiskGallBladder,
    byProcedure,
  ],
  example: { given: { procedure: 'cholecystectomy' }, decision: 'none' },
  decide(given) {
    const woundClass = given.woundClass ?? procedureFacts[given.procedure].usual
    if (woundClass === 'IV') {
      const says =
        'The wound is dirty. Give antibiotics as treatment, chosen for the infection and for as long as it needs.'
      return answer('treatment', 'caution', says, dirtyIsTreated)
    }
    if (given.plannedAfterClosure) {
      if (woundClass !== 'III') {
        const says = `No dose after closure${given.drain ? ', the drain does not change that' : ''}.`
        return answer('notNeeded', 'note', says, noDoseAfterClosure)
      }
      return answer(
        'notNeeded',
        'note',
        'After closure at most until 24 hours; longer is treatment.',
        noDoseAfterClosure,
      )
    }
    switch (procedureFacts[given.procedure].prophylaxis) {
      case 'yes':
        return answer('give', 'note', 'Prophylaxis is customary for this operation.', byProcedure)
      case 'no':
        return answer('none', 'note', 'Prophylaxis is not customary for this clean operation.', byProcedure)
      case 'byRisk':
        return forGallBladder(given)
    }
  },
})

function forGallBladder(given: {
  readonly risks: readonly (keyof typeof risks)[]
  readonly limits: ChangedLimits
}): Decided {
  const [risk] = given.risks
  if (risk !== undefined) {
    return {
      decision: 'give',
      findings: given.risks.map((each) => ({
        rule: 'prophylaxis-by-risk',
        weight: 'note' as const,
        says: 'A risk that asks for prophylaxis.',
        measured: each,
        source: risks[each],
      })),
    }
  }
  const { value, source } = casePolicy(given.limits).limit(lowRiskCholecystectomy)
  const says =
    value === 'give'
      ? 'Low risk; the policy of the unit is to give it.'
      : 'Low risk; the policy of the unit is to give none. The studies conflict: the unit decides.'
  return answer(value === 'give' ? 'give' : 'none', 'note', says, source)
}

function answer(decision: string, weight: Finding['weight'], says: string, source: Finding['source']): Decided {
  return { decision, findings: [{ rule: 'prophylaxis', weight, says, source }] }
}
