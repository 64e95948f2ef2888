import { type Hospital, celsius, minutes } from './hospital.ts'
import { shiftOf } from './people.ts'
import type { RoundId } from './stock.ts'
import type { SetId } from './sets.ts'

interface Anew {
  readonly round: RoundId
  readonly set: SetId
  readonly previous: RoundId | null
  readonly from: number
}

/** A set outside the daily stock begins a round without a use: soaked, washed by hand, dried and looked at. */
export function washAnew(hospital: Hospital, workingDay: number, { round, set, previous, from }: Anew): void {
  const { wash: by } = shiftOf(workingDay)
  const said = (after: number) => ({ at: from + after * minutes, by, room: 'Wash room' as const })
  hospital.write({
    ...said(0),
    kind: 'reprocessing-started',
    body: {
      round,
      set,
      because: previous === null ? 'newSet' : 'expired',
      ...(previous === null ? {} : { previousRound: previous }),
    },
  })
  hospital.write({
    ...said(5),
    kind: 'soak-started',
    body: { round, solution: 'enzymatic', waterC: celsius(28) },
  })
  hospital.write({
    ...said(30),
    kind: 'wash-recorded',
    body: {
      wash: `wash:${round.slice('round:'.length)}`,
      rounds: [round],
      outlets: ['outlet:final-rinse'],
      how: {
        kind: 'manual',
        detergent: 'Neutral detergent',
        takenApart: true,
        lumensBrushed: 'noLumen',
        lumensFlushed: 'noLumen',
        finalRinse: 'sterile',
      },
    },
  })
  hospital.write({
    ...said(50),
    kind: 'inspected',
    body: {
      round,
      cleanliness: 'clean',
      magnified: true,
      function: 'works',
      insulation: 'notInsulated',
      dry: true,
    },
  })
}
