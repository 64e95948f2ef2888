import type { Bodies } from '#road/kinds.ts'
import type { PlannedCase } from './case-plan.ts'
import { type Hospital, minutes } from './hospital.ts'
import type { PersonId } from './people.ts'
import type { roomOfTheatre } from './draft.ts'

interface InTheatre {
  readonly by: PersonId
  readonly room: ReturnType<typeof roomOfTheatre>
  readonly begin: number
  readonly end: number
}

type Measures = Bodies['prevention-noted']['measures']

/** A prophylactic dose as it was given, and what guarded the wound; now and then nobody noted it. */
export function notePrevention(hospital: Hospital, planned: PlannedCase, run: InTheatre, doseAt: number | null): void {
  const { by, room } = run
  if (doseAt !== null) {
    const body = { case: planned.id, drug: 'cefazolin' as const, doseMg: 2000 }
    hospital.write({ at: doseAt, by, room, kind: 'antibiotic-given', body })
  }
  const dice = hospital.diceFor(`prevention:${planned.id}`)
  if (dice.chance(0.07)) return
  const warm = dice.chance(0.93)
  const glucose = glucoseOf(hospital, planned)
  hospital.write({
    at: run.end + 3 * minutes,
    by,
    room,
    kind: 'prevention-noted',
    body: {
      case: planned.id,
      measures: { ...measuresOf(hospital, planned, warm), ...glucose.measure },
      skinAgent: dice.chance(0.9) ? 'chlorhexidineAlcohol' : 'iodineAlcohol',
      ...glucose.highest,
      lowestC: Math.round((warm ? dice.between(36, 36.9) : dice.between(35.1, 35.9)) * 10) / 10,
    },
  })
}

function measuresOf(hospital: Hospital, { id, procedure }: PlannedCase, warm: boolean): Measures {
  const dice = hospital.diceFor(`measures:${id}`)
  const usually = (share: number) => (dice.chance(share) ? ('done' as const) : ('notDone' as const))
  const mesh = procedure.set === 'hernia'
  const specimen = procedure.set === 'chole' || procedure.set === 'bariatric'
  return {
    antibioticProphylaxis: procedure.antibiotic === null ? 'notApplicable' : 'done',
    skinPreparation: 'done',
    warmth: warm ? 'done' : 'notDone',
    glovesChangedBeforeImplant: mesh ? usually(0.88) : 'notApplicable',
    implantThroughPort: mesh ? usually(0.97) : 'notApplicable',
    specimenInBag: specimen ? usually(0.94) : 'notApplicable',
    ...protectorOf(hospital, id, specimen),
  }
}

interface Glucose {
  readonly measure: Pick<Measures, 'glucose'>
  readonly highest: { readonly highestGlucoseMmolPerL?: number }
}

/** Glucose is taken of nearly everybody; of some nobody took it, and now and then the box was left empty. */
function glucoseOf(hospital: Hospital, { id }: PlannedCase): Glucose {
  const dice = hospital.diceFor(`glucose:${id}`)
  if (dice.chance(0.04)) return { measure: {}, highest: {} }
  if (dice.chance(0.05)) return { measure: { glucose: 'notDone' }, highest: {} }
  const high = dice.chance(0.08)
  const highest = Math.round((high ? dice.between(9.4, 13.2) : dice.between(4.9, 8.6)) * 10) / 10
  return { measure: { glucose: 'done' }, highest: { highestGlucoseMmolPerL: highest } }
}

/** A protector belongs where a specimen leaves through the wound of a port; the box is left empty more often than others. */
function protectorOf(hospital: Hospital, id: PlannedCase['id'], specimen: boolean): Pick<Measures, 'woundProtector'> {
  const dice = hospital.diceFor(`protector:${id}`)
  if (dice.chance(0.05)) return {}
  if (!specimen) return { woundProtector: 'notApplicable' }
  return { woundProtector: dice.chance(0.9) ? 'done' : 'notDone' }
}
