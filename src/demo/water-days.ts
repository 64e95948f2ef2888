import { type Hospital, minutes } from './hospital.ts'
import { shiftOf } from './people.ts'

export const outlets = [
  ['final-rinse', 'Final rinse, sterile filter', 'finalRinse', 'reverseOsmosis'],
  ['wash-sink', 'Sink of the wash room', 'wash', 'reverseOsmosis'],
  ['store-sink', 'Sink in Store 2, for hands', 'preclean', 'none'],
] as const
/** Water is sampled about once a month. */
const sampledEvery = 20

/** What comes out of the taps of the wash room, sampled in turn; nobody thinks of the one in the store. */
export function sampleWater(hospital: Hospital, workingDay: number): void {
  if (workingDay % sampledEvery !== 0) return
  const at = hospital.clock.at(workingDay, 395)
  for (const [index, [key]] of outlets.slice(0, 2).entries()) {
    const dice = hospital.diceFor(`water:${key}:${workingDay}`)
    hospital.write({
      at: at + index * 3 * minutes,
      by: shiftOf(workingDay).wash,
      room: 'Wash room',
      kind: 'water-sampled',
      body: { outlet: `outlet:${key}`, figures: [{ property: 'ph', value: Math.round(dice.between(66, 74)) / 10 }] },
    })
  }
}
