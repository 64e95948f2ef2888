import type { Bodies } from '#road/kinds.ts'
import { type Hospital, minutes } from './hospital.ts'
import type { PersonId } from './people.ts'
import { setTypes } from './sets.ts'
import type { SetState } from './stock.ts'
import { washerOutDays } from './story-days.ts'

type Tested = Bodies['cleaning-tested']
type Analyte = Tested['analyte']

/** A wash, and the sets that were in it. */
interface Washed {
  readonly wash: Bodies['wash-recorded']['wash']
  readonly states: readonly SetState[]
  readonly at: number
  readonly by: PersonId
}

/** How each is tested, what is usually found, and whether the answer comes from the laboratory on the day after. */
const tests = {
  atp: { method: 'Swab, light read at the bench', from: 1.2, to: 8.5, nextDay: false },
  protein: { method: 'Eluate, dye binding, laboratory', from: 0.5, to: 2.3, nextDay: true },
  haemoglobin: { method: 'Eluate, laboratory', from: 0.1, to: 0.7, nextDay: true },
} as const satisfies Partial<Record<Analyte, object>>

/**
 * What the laboratory found on sets washed by hand while the washer was away, day after day: over the alert level, then
 * over the action level. Each answer came when its set was packed, and nobody put them side by side.
 */
const whileWasherOut: readonly (readonly (readonly [keyof typeof tests, number])[])[] = [
  [['protein', 3.4]],
  [
    ['protein', 5.6],
    ['haemoglobin', 1.3],
  ],
  [
    ['protein', 8.1],
    ['haemoglobin', 2.6],
  ],
]
const firstOutDay = Math.min(...washerOutDays)

/** Tests after a run of the washer: light at the bench each week, the laboratory every second, blood every fourth. */
export function testWasher(hospital: Hospital, workingDay: number, washed: Washed): void {
  const dice = hospital.diceFor(`cleaning:${workingDay}`)
  if (workingDay % 5 === 1) {
    // Now and then one swab is high, and the next is not.
    const high = dice.chance(0.07) ? dice.whole(11, 16) : undefined
    testOne(hospital, workingDay, washed, 'atp', high)
  }
  if (workingDay % 10 === 3) testOne(hospital, workingDay, washed, 'protein')
  if (workingDay % 20 === 3) testOne(hospital, workingDay, washed, 'haemoglobin')
}

/** Tests of a set that was washed by hand while the washer was away. */
export function testWhileWasherOut(hospital: Hospital, workingDay: number, washed: Washed): void {
  for (const [analyte, value] of whileWasherOut[workingDay - firstOutDay] ?? []) {
    testOne(hospital, workingDay, washed, analyte, value)
  }
}

/** Some sets that were seen to be soiled and went back to the sink are tested before they go on. */
export function testSentBack(hospital: Hospital, workingDay: number, washed: Washed): void {
  if (hospital.diceFor(`cleaning:${washed.wash}`).chance(0.35)) testOne(hospital, workingDay, washed, 'protein')
}

function testOne(
  hospital: Hospital,
  workingDay: number,
  { wash, states, at, by }: Washed,
  analyte: keyof typeof tests,
  figure?: number,
): void {
  const state = states.find(({ set }) => set.type === 'basic') ?? states[0]
  if (state === undefined || state.round === null) return
  const dice = hospital.diceFor(`cleaning:${wash}:${analyte}`)
  const { method, from, to, nextDay } = tests[analyte]
  const [first, ...others] = setTypes[state.set.type].sheet.map(([device]) => device)
  if (first === undefined) return
  hospital.write({
    at: nextDay ? hospital.clock.at(workingDay + 1, 545) : at + 3 * minutes,
    by,
    room: 'Wash room',
    kind: 'cleaning-tested',
    body: {
      round: state.round,
      wash,
      device: `device:${dice.pick([first, ...others])}`,
      analyte,
      value: figure ?? Math.round(dice.between(from, to) * 10) / 10,
      method,
    },
  })
}
