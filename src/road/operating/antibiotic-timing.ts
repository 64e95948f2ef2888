import type { Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import { type Antibiotic, antibiotics, redoseHours } from './antibiotics.ts'
import { antibioticWithinMinutes, redoseBloodLossMl, slowAntibioticWithinMinutes } from './limits.ts'
import { prophylaxisBloodLoss, prophylaxisDoses, prophylaxisTiming } from './sources.ts'

export type Timing = 'inTime' | 'early' | 'late'

/** Whether a dose was begun in time before incision. A drug that is not in the table is held to the shorter window. */
export function antibioticTiming(
  drug: Antibiotic | undefined,
  minutesBefore: number,
  policy: Policy,
): { readonly timing: Timing; readonly found: readonly Found[] } {
  const slow = drug !== undefined && antibiotics[drug].slow
  const { value, source } = policy.limit(slow ? slowAntibioticWithinMinutes : antibioticWithinMinutes)
  if (minutesBefore < 0) {
    return {
      timing: 'late',
      found: [
        {
          weight: 'caution',
          says: 'The antibiotic was begun after the incision: it came too late to protect the wound as it was made.',
          measured: `${-minutesBefore} min after`,
          limit: `within ${value} min before`,
          source: prophylaxisTiming,
        },
      ],
    }
  }
  if (minutesBefore <= value) return { timing: 'inTime', found: [] }
  return {
    timing: 'early',
    found: [
      {
        weight: 'caution',
        says: 'The antibiotic was begun too early: little of it may be left at the incision. Ask the anaesthetist about another dose.',
        measured: `${minutesBefore} min before`,
        limit: `within ${value} min before`,
        source,
      },
    ],
  }
}

export interface RedoseFacts {
  readonly drug: Antibiotic
  readonly minutesSinceDose: number
  readonly woundOpen: boolean
  readonly bloodLossMl: number
  readonly kidneys: 'healthy' | 'failing'
  readonly halfLifeShortened: boolean
}

export type Redose = 'redose' | 'notYet' | 'noRedose'

/** Whether another dose is due while the wound is open. */
export function antibioticRedose(
  facts: RedoseFacts,
  policy: Policy,
): { readonly redose: Redose; readonly found: readonly Found[] } {
  if (!facts.woundOpen) return { redose: 'noRedose', found: [] }
  const blood = policy.limit(redoseBloodLossMl)
  if (facts.bloodLossMl > blood.value && !antibiotics[facts.drug].notForBloodLoss) {
    return {
      redose: 'redose',
      found: [
        {
          weight: 'caution',
          says: 'Much blood was lost and the drug with it: give another dose now.',
          measured: `${facts.bloodLossMl} mL`,
          limit: `more than ${blood.value} mL`,
          source: prophylaxisBloodLoss,
        },
      ],
    }
  }
  const limit = redoseHours[facts.drug]
  if (limit === undefined) {
    const says = 'One dose of this drug lasts through the operation.'
    return { redose: 'noRedose', found: [{ weight: 'note', says, source: prophylaxisDoses }] }
  }
  const { value, source } = policy.limit(limit)
  const late = facts.minutesSinceDose - value * 60
  const adjusting = adjustments(facts)
  if (late < 0) return { redose: 'notYet', found: adjusting }
  return {
    redose: 'redose',
    found: [
      {
        weight: 'caution',
        says: late === 0 ? 'Another dose is due now.' : `Another dose was due ${late} min ago.`,
        measured: `${facts.minutesSinceDose} min`,
        limit: `${value} h`,
        source,
      },
      ...adjusting,
    ],
  }
}

function adjustments({ kidneys, halfLifeShortened }: RedoseFacts): readonly Found[] {
  const says = [
    ...(kidneys === 'failing' ? ['The kidneys fail: the next dose comes later. Ask the anaesthetist.'] : []),
    ...(halfLifeShortened
      ? ['The drug leaves faster, as with large burns: the next dose comes earlier. Ask the anaesthetist.']
      : []),
  ]
  return says.map((each) => ({ weight: 'note' as const, says: each, source: prophylaxisBloodLoss }))
}
