import type { Bodies } from '#road/kinds.ts'
import type { PlannedCase } from './case-plan.ts'
import { type Hospital, minutes } from './hospital.ts'
import { instantOf } from './hospital-clock.ts'
import { infectionControl } from './people.ts'
import type { RoundId } from './stock.ts'
import { lateWound } from './story-late-wounds.ts'

type Wound = Omit<Bodies['wound-noted'], 'wound' | 'case' | 'onsetAt'>

/** A wound as it will be seen, so many calendar days after the operation. */
export interface WoundToCome extends Wound {
  readonly onsetDays: number
  readonly notedDays: number
}

const usual: readonly [Wound, ...Wound[]] = [
  {
    depth: 'superficial',
    signs: 'Redness and pus at the umbilical port.',
    culture: 'growth',
    acidFast: 'notDone',
    organism: 'Staphylococcus aureus',
  },
  {
    depth: 'superficial',
    signs: 'Tender, warm port site with discharge.',
    culture: 'growth',
    acidFast: 'notDone',
    organism: 'Escherichia coli',
  },
  { depth: 'superficial', signs: 'Discharge from the umbilical port.', culture: 'notTaken', acidFast: 'notDone' },
  {
    depth: 'deep',
    signs: 'Fever, swelling under the fascia, pus on opening.',
    culture: 'growth',
    acidFast: 'notDone',
    organism: 'Enterococcus faecalis',
  },
  {
    depth: 'organSpace',
    signs: 'Fever on day 8, collection under the liver on ultrasound.',
    culture: 'growth',
    acidFast: 'notDone',
    organism: 'Klebsiella pneumoniae',
  },
  {
    depth: 'superficial',
    signs: 'Redness beyond 2 cm, opened in the clinic.',
    culture: 'growth',
    acidFast: 'notDone',
    organism: 'Staphylococcus epidermidis',
  },
]

/** Notes the wound that a case leads to, if any: the ordinary ones of about one case in seventy, and the planted late ones. */
export function noteWounds(hospital: Hospital, planned: PlannedCase, rounds: readonly RoundId[], end: number): void {
  const wound = rounds.some((round) => hospital.lowShelf.has(round))
    ? lateWound(hospital, planned)
    : ordinary(hospital, planned)
  if (wound === null) return
  const { onsetDays, notedDays, ...seen } = wound
  const day = 24 * 60 * minutes
  const noted = hospital.clock.at(hospital.clock.dayAfter(planned.workingDay, notedDays), 0)
  const dice = hospital.diceFor(`noted:${planned.id}`)
  hospital.write({
    at: noted + dice.whole(560, 690) * minutes,
    by: infectionControl,
    room: 'Ward office',
    kind: 'wound-noted',
    body: {
      wound: `wound:w-${planned.id.slice(-4)}`,
      case: planned.id,
      onsetAt: instantOf(end + onsetDays * day),
      ...seen,
    },
  })
}

function ordinary(hospital: Hospital, planned: PlannedCase): WoundToCome | null {
  const dice = hospital.diceFor(`wound:${planned.id}`)
  const risk = planned.procedure.woundClass === 'I' ? 0.009 : 0.018
  if (!dice.chance(risk)) return null
  const onsetDays = dice.whole(4, 13)
  return { ...dice.pick(usual), onsetDays, notedDays: onsetDays + dice.whole(1, 5) }
}
