import { type Hospital, type Sealed, minutes } from './hospital.ts'
import { runGoods } from './loads.ts'
import { steriliserA, steriliserB } from './machines.ts'
import { inService } from './morning-tests.ts'
import { shiftOf } from './people.ts'
import { everyCase, setTypes } from './sets.ts'
import { shortHoldCycle } from './steam-log.ts'
import {
  failedIndicatorDay,
  indicatorEvery,
  failureReadDay,
  lastGoodDay,
  lateLoadDay,
  shortHoldDay,
} from './story-days.ts'
import { runLateLoad } from './story-late-wounds.ts'

/** Runs the packs that are sealed by now through the sterilisers: A takes six and all implants, B what is left over. */
export function runLoads(hospital: Hospital, workingDay: number, batch: number, startMinute: number): void {
  // On the evening of the second story everything of the afternoon waits for one load.
  if (workingDay === lateLoadDay && batch === 1) return
  const from = hospital.clock.at(workingDay, startMinute)
  let waiting: readonly Sealed[] = hospital.sealed
  hospital.sealed = []
  if (workingDay === lateLoadDay && batch === 2) waiting = runLateLoad(hospital, waiting, from)
  let weekly = batch === 0
  while (waiting.length > 0) {
    const { a, b } = share(workingDay, batch, waiting)
    if (a.length > 0) runOnA(hospital, workingDay, a, from, weekly)
    if (b.length > 0) runOnB(hospital, workingDay, b, from + 9 * minutes, weekly)
    const run = new Set([...a, ...b])
    if (run.size === 0) break
    waiting = waiting.filter((pack) => !run.has(pack))
    weekly = false
  }
  hospital.sealed = [...waiting]
}

function isImplant({ state }: Sealed): boolean {
  return setTypes[state.set.type].implant
}

function share(
  workingDay: number,
  batch: number,
  waiting: readonly Sealed[],
): { readonly a: readonly Sealed[]; readonly b: readonly Sealed[] } {
  const plain = turned(
    waiting.filter((pack) => !isImplant(pack)),
    workingDay,
  )
  if (!inService(steriliserA, workingDay)) return { a: [], b: plain.slice(0, steriliserB.holds) }
  // On the day on which B's failed indicator is read, B still runs its load of the morning.
  const bRuns = inService(steriliserB, workingDay) && (workingDay !== failureReadDay || batch === 0)
  const kept = bRuns && batch === 0 && (hasWeeklyB(workingDay) || workingDay === failureReadDay) ? keptForB(plain) : []
  const ordered = [...waiting.filter(isImplant), ...plain.filter((pack) => !kept.includes(pack))]
  const a = ordered.slice(0, steriliserA.holds)
  const left = [...kept, ...ordered.slice(a.length).filter((pack) => !isImplant(pack))]
  return { a, b: bRuns ? left.slice(0, steriliserB.holds) : [] }
}

/** The small steriliser has goods in the load of its weekly indicator: the special sets, then a basic one. */
function keptForB(plain: readonly Sealed[]): readonly Sealed[] {
  const typeOf = ({ state }: Sealed) => state.set.type
  const special = plain.filter((pack) => !everyCase.includes(typeOf(pack)))
  const basic = plain.filter((pack) => typeOf(pack) === 'basic')
  return [...special, ...basic].slice(0, steriliserB.holds)
}

/** Whatever lies nearest goes in first, so that both sterilisers see every kind of set. */
function turned(packs: readonly Sealed[], by: number): readonly Sealed[] {
  const cut = packs.length === 0 ? 0 : by % packs.length
  return [...packs.slice(cut), ...packs.slice(0, cut)]
}

function hasWeeklyB(workingDay: number): boolean {
  return workingDay === 0 || workingDay % indicatorEvery === failedIndicatorDay % indicatorEvery
}

function hasWeeklyA(workingDay: number): boolean {
  return workingDay % indicatorEvery === 0
}

function runOnA(hospital: Hospital, workingDay: number, packs: readonly Sealed[], from: number, first: boolean): void {
  runGoods(hospital, {
    workingDay,
    steriliser: steriliserA,
    packs,
    from,
    biological: first && hasWeeklyA(workingDay),
    ...(first && workingDay === shortHoldDay ? { shape: shortHoldCycle } : {}),
  })
}

function runOnB(hospital: Hospital, workingDay: number, packs: readonly Sealed[], from: number, first: boolean): void {
  const biological = first && hasWeeklyB(workingDay)
  const load = runGoods(hospital, { workingDay, steriliser: steriliserB, packs, from, biological })
  if (workingDay > lastGoodDay || (workingDay === lastGoodDay && !biological)) hospital.inQuestion.add(load)
}

/** Steriliser B is taken out of service as soon as its failed indicator has been read. */
export function withdrawAfterFailure(hospital: Hospital, workingDay: number): void {
  if (workingDay !== failureReadDay) return
  hospital.write({
    at: hospital.clock.at(workingDay, 870),
    by: shiftOf(workingDay).machines,
    room: 'Steriliser room',
    kind: 'machine-withdrawn',
    body: { machine: steriliserB.id, why: 'Growth in the biological indicator. Three repeats to be run.' },
  })
}
