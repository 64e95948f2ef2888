import type { Finding } from '../finding.ts'
import { antibiotics, redoseHours } from '../operating/antibiotics.ts'
import type { CaseKnown } from '../operating/fold.ts'
import { antibioticWithinMinutes, lowRiskCholecystectomy, redoseBloodLossMl } from '../operating/limits.ts'
import { procedureFacts } from '../operating/procedures.ts'
import { byProcedure } from '../operating/sources.ts'
import type { Policy } from '../policy.ts'

/** What is to be done for the wound of a planned case, and when. Minutes of the day. */
export interface CaseReminder {
  readonly kind: 'antibiotic' | 'redose' | 'implantDecision' | 'allergy'
  readonly from: number | null
  readonly to: number | null
  readonly says: string
  readonly source: Finding['source']
}

/** The reminders of a case that is planned from `start` to `end`. The dose is begun within its window before incision. */
export function caseReminders(
  { booked, implantDecision, patientFacts }: CaseKnown,
  { start, end }: { readonly start: number; readonly end: number },
  policy: Policy,
): readonly CaseReminder[] {
  if (booked === null) return []
  const allergies = patientFacts?.allergies ?? []
  const unclean = (booked.forPlan?.woundClass ?? (booked.category && procedureFacts[booked.category].usual)) !== 'I'
  return [
    ...antibioticReminders(booked.category, { start, end }, policy),
    ...(booked.implantPlanned && unclean && implantDecision === null
      ? [
          {
            kind: 'implantDecision' as const,
            from: null,
            to: start,
            says: 'An implant is planned and the wound may not be clean: record the decision before the list is kept.',
            source: byProcedure,
          },
        ]
      : []),
    ...(allergies.length === 0
      ? []
      : [
          {
            kind: 'allergy' as const,
            from: null,
            to: start,
            says: `Allergic to ${allergies.join(', ')}: look at the sets and the way that they were treated.`,
            source: byProcedure,
          },
        ]),
  ]
}

function antibioticReminders(
  category: NonNullable<CaseKnown['booked']>['category'],
  { start, end }: { readonly start: number; readonly end: number },
  policy: Policy,
): readonly CaseReminder[] {
  const wanted = category === undefined ? null : procedureFacts[category].prophylaxis
  if (wanted === 'no' || (wanted === 'byRisk' && policy.limit(lowRiskCholecystectomy).value === 'none')) return []
  const window = policy.limit(antibioticWithinMinutes)
  const unknown = wanted === null ? ' Whether one is wanted is not known: the kind of operation is not noted.' : ''
  const dose: CaseReminder = {
    kind: 'antibiotic',
    from: start - window.value,
    to: start,
    says: `Antibiotic begun within ${window.value} min before incision.${unknown}`,
    source: window.source,
  }
  const limit = redoseHours.cefazolin
  const redose = limit === undefined ? null : policy.limit(limit)
  const at = redose === null ? Number.POSITIVE_INFINITY : start + redose.value * 60
  if (redose === null || at >= end) return [dose]
  const loss = policy.limit(redoseBloodLossMl).value
  const says = `Longer than ${redose.value} h: a further dose if it was ${antibiotics.cefazolin.name}, and after a loss of blood above ${loss} mL. Another drug has its own time.`
  return [dose, { kind: 'redose', from: at, to: at, says, source: redose.source }]
}
