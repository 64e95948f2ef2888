import type { PlannedCase } from './case-plan.ts'
import { type Hospital, minutes } from './hospital.ts'
import { today } from './hospital-clock.ts'
import { type SetTypeKey, everyCase } from './sets.ts'
import type { SetState } from './stock.ts'

/** Packs from the low shelf that are used on one day: it stands out of the way. */
const lowShelfPerDay = 2

/** The packs for a case, one of each kind that it needs; null when one is not to be had. */
export function choosePacks(hospital: Hospital, planned: PlannedCase): readonly SetState[] | null {
  const by = hospital.clock.at(planned.workingDay, planned.startMinute) - 25 * minutes
  const kinds: readonly SetTypeKey[] = [...everyCase, planned.procedure.set]
  const ready = kinds.map((type) => hospital.stock.ready(type, by))
  const lowKind = kindFromLowShelf(hospital, planned, ready)
  const chosen = ready.flatMap((states, index) => {
    const fromShelf = states.filter((state) => onLowShelf(hospital, state) === (index === lowKind))
    // Once the failed indicator has been read, packs in question stay where they are, but for one oversight.
    const sound = fromShelf.filter((state) => !inQuestion(hospital, state))
    if (planned.workingDay !== today) return fromShelf.slice(0, 1)
    if (!isOversight(planned)) return sound.slice(0, 1)
    const doubtful = fromShelf.filter((state) => inQuestion(hospital, state))
    return (index === 0 ? [...doubtful, ...sound] : [...sound, ...doubtful]).slice(0, 1)
  })
  if (chosen.length < kinds.length) return null
  if (lowKind !== -1) hospital.lowShelfUsed.set(planned.workingDay, usedOn(hospital, planned.workingDay) + 1)
  return chosen
}

function onLowShelf(hospital: Hospital, state: SetState): boolean {
  return state.round !== null && hospital.lowShelf.has(state.round)
}

function inQuestion(hospital: Hospital, state: SetState): boolean {
  return state.load !== null && hospital.inQuestion.has(state.load)
}

function usedOn(hospital: Hospital, workingDay: number): number {
  return hospital.lowShelfUsed.get(workingDay) ?? 0
}

/**
 * Which of the needed kinds is taken from the low shelf, -1 for none: one at most, so that no case has two of its packs.
 * The procedure's own set comes first, since there are fewest of them.
 */
function kindFromLowShelf(hospital: Hospital, planned: PlannedCase, ready: readonly (readonly SetState[])[]): number {
  if (usedOn(hospital, planned.workingDay) >= lowShelfPerDay) return -1
  return [3, 0, 1, 2].find((index) => ready[index]?.some((state) => onLowShelf(hospital, state))) ?? -1
}

/** The case that is running now in theatre 2: its packs were taken from the shelf without a look at the list. */
function isOversight(planned: PlannedCase): boolean {
  return planned.workingDay === today && planned.startMinute > 770
}
