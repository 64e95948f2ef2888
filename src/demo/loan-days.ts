import { type Hospital, minutes } from './hospital.ts'
import { instantOf, today } from './hospital-clock.ts'
import { washAnew } from './other-rounds.ts'
import { shiftOf } from './people.ts'

const set = 'set:loan-anchors'

/** A set on loan came yesterday for a case in three days; it is taken as contaminated, and washed at noon today. */
export function takeLoan(hospital: Hospital, workingDay: number): void {
  if (workingDay === today - 1) {
    hospital.write({
      at: hospital.clock.at(workingDay, 900),
      by: shiftOf(workingDay).packing,
      room: 'Packing',
      kind: 'loan-arrived',
      body: {
        set,
        name: 'On loan: forceps for anchors',
        lender: 'Regional instrument pool',
        countSheet: [
          { device: 'device:tenaculum', count: 2 },
          { device: 'device:handle-set', count: 1 },
        ],
        known: true,
        neededAt: instantOf(hospital.clock.at(today + 2, 490)),
        dueBack: instantOf(hospital.clock.at(today + 6, 720)),
        declaredSterile: false,
        instructionsOnFile: true,
        massKg: 3.4,
      },
    })
  }
  if (workingDay === today) {
    const from = hospital.clock.at(today, 815) - 55 * minutes
    washAnew(hospital, workingDay, { round: 'round:loan-anchors-r001', set, previous: null, from })
  }
}
