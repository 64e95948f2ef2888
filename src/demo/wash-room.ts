import type { Bodies } from '#road/kinds.ts'
import { testSentBack, testWasher, testWhileWasherOut } from './cleaning-tests.ts'
import { type Dirty, type Hospital, celsius, minutes } from './hospital.ts'
import { ultrasonicBath, washer, washerProgram } from './machines.ts'
import { type Shift, shiftOf } from './people.ts'
import { type OwnedSet, setTypes } from './sets.ts'
import type { SetState } from './stock.ts'
import { washerOutDays } from './story-days.ts'
import { washerRun } from './washer-log.ts'
import { sealPack } from './packing.ts'

/** Minutes after midnight at which the washer is started. */
export const washTimes = [620, 775, 930, 1090] as const
const washerHolds = 12
const washMinutes = 50
/** The wash of the day after which cleaning is tested. */
const testedWash = 775

type WashId = Bodies['wash-recorded']['wash']

/** Puts a set into the soak; it then waits for the washer. */
export function soak(hospital: Hospital, state: SetState, at: number, by: Shift['wash']): void {
  const { round } = state
  if (round === null) return
  const dice = hospital.diceFor(`soak:${round}`)
  hospital.write({
    at,
    // Some soaks are entered when there is time for it.
    ...(dice.chance(0.012) ? { madeAt: at + dice.whole(35, 80) * minutes } : {}),
    by,
    room: 'Wash room',
    kind: 'soak-started',
    body: { round, solution: dice.chance(0.8) ? 'enzymatic' : 'detergent', waterC: celsius(dice.whole(32, 40)) },
  })
  hospital.dirty.push({ state, soakedAt: at })
}

/** One run of the washer, or a wash by hand while it is away, and what follows it: inspection and packing. */
export function washBatch(hospital: Hospital, workingDay: number, startMinute: number): void {
  const start = hospital.clock.at(workingDay, startMinute)
  const batch = hospital.dirty.filter(({ soakedAt }) => soakedAt <= start - 4 * minutes).slice(0, washerHolds)
  if (batch.length === 0) return
  hospital.dirty = hospital.dirty.filter((each) => !batch.includes(each))
  const shift = shiftOf(workingDay)
  const byHand = washerOutDays.has(workingDay)
  const end = start + washMinutes * minutes
  if (byHand) {
    for (const [index, { state }] of batch.entries()) {
      const wash = washByHand(hospital, [state], end, shift)
      if (state.round !== null) hospital.handWashed.add(state.round)
      const tested = startMinute === testedWash && index === 0
      if (tested) testWhileWasherOut(hospital, workingDay, { wash, states: [state], at: end, by: shift.wash })
    }
  } else {
    const wash = washByMachine(hospital, batch, end, shift)
    const states = batch.map(({ state }) => state)
    if (startMinute === testedWash) testWasher(hospital, workingDay, { wash, states, at: end, by: shift.wash })
  }
  for (const [index, { state }] of batch.entries()) {
    inspect(hospital, state, workingDay, end + (6 + 2.6 * index) * minutes)
  }
}

function nextWash(hospital: Hospital): WashId {
  hospital.next.wash += 1
  return `wash:w-${String(hospital.next.wash).padStart(4, '0')}`
}

function roundsOf(states: readonly SetState[]): Bodies['wash-recorded']['rounds'] {
  return states.flatMap(({ round }) => round ?? [])
}

function washByMachine(hospital: Hospital, batch: readonly Dirty[], at: number, shift: Shift): WashId {
  const wash = nextWash(hospital)
  const run = washerRun(hospital.diceFor(wash))
  hospital.write({
    at,
    by: shift.wash,
    room: 'Wash room',
    kind: 'wash-recorded',
    files: [{ text: run.text, mediaType: 'text/csv' }],
    body: {
      wash,
      rounds: roundsOf(batch.map(({ state }) => state)),
      how: {
        kind: 'washer',
        machine: washer,
        program: washerProgram,
        takenApart: true,
        log: hospital.digest(run.text),
        a0Seconds: run.a0Seconds,
        coldestChannel: 'rinse water',
      },
    },
  })
  return wash
}

function washByHand(hospital: Hospital, states: readonly SetState[], at: number, shift: Shift): WashId {
  const wash = nextWash(hospital)
  const lumens = states.some(({ set }) => setTypes[set.type].lumens) ? 'yes' : 'noLumen'
  hospital.write({
    at,
    by: shift.wash,
    room: 'Wash room',
    kind: 'wash-recorded',
    body: {
      wash,
      rounds: roundsOf(states),
      how: {
        kind: 'manual',
        detergent: 'Enzymatic detergent, 5 mL per litre',
        takenApart: true,
        lumensBrushed: lumens,
        lumensFlushed: lumens,
        ultrasoundMinutes: 10,
        ultrasoundMachine: ultrasonicBath,
        finalRinse: 'purified',
      },
    },
  })
  return wash
}

/** Looks at a set; now and then one goes back to the wash, by hand, and is looked at again before it is packed. */
function inspect(hospital: Hospital, state: SetState, workingDay: number, at: number): void {
  const { round } = state
  const shift = shiftOf(workingDay)
  if (round === null) return
  const sentBack = hospital.diceFor(`inspect:${round}`).chance(0.014)
  if (sentBack) {
    look(hospital, state, at, shift, { cleanliness: 'soilSeen', note: 'Soil in a box lock; back to the wash.' })
    const wash = washByHand(hospital, [state], at + 26 * minutes, shift)
    testSentBack(hospital, workingDay, { wash, states: [state], at: at + 26 * minutes, by: shift.wash })
    look(hospital, state, at + 34 * minutes, shift, {})
    sealPack(hospital, state, at + 40 * minutes, shift)
    return
  }
  look(hospital, state, at, shift, {})
  sealPack(hospital, state, at + hospital.diceFor(`seal:${round}`).between(6, 12) * minutes, shift)
}

function look(
  hospital: Hospital,
  state: SetState,
  at: number,
  shift: Shift,
  seen: Partial<Pick<Bodies['inspected'], 'cleanliness' | 'note'>>,
): void {
  if (state.round === null) return
  hospital.write({
    at,
    by: shift.packing,
    room: 'Packing',
    kind: 'inspected',
    body: {
      round: state.round,
      cleanliness: 'clean',
      magnified: true,
      function: 'works',
      insulation: insulationOf(state.set),
      dry: true,
      ...seen,
    },
  })
}

function insulationOf(set: OwnedSet): Bodies['inspected']['insulation'] {
  return setTypes[set.type].insulated ? 'passed' : 'notInsulated'
}
