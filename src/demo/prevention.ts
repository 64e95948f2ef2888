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
  hospital.write({
    at: run.end + 3 * minutes,
    by,
    room,
    kind: 'prevention-noted',
    body: {
      case: planned.id,
      measures: measuresOf(hospital, planned, warm),
      skinAgent: dice.chance(0.9) ? 'chlorhexidineAlcohol' : 'iodineAlcohol',
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
  }
}
