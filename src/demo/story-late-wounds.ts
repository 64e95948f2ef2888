import type { PlannedCase } from './case-plan.ts'
import { type Hospital, type Sealed, minutes } from './hospital.ts'
import { runGoods } from './loads.ts'
import { steriliserA } from './machines.ts'
import { shiftOf } from './people.ts'
import { setTypes } from './sets.ts'
import { shortDryingCycle } from './steam-log.ts'
import { failureReadDay, lateLoadDay, latePacks, lateShelf } from './story-days.ts'
import { lateWounds, type WoundSeen } from './wound-kinds.ts'
import type { WoundToCome } from './wound-notes.ts'

/*
 * Story 2. One evening, eleven packs go into a steriliser that holds six, and the drying is cut short. The steam has
 * done its work: the holding time is met, nothing in the load is unsterile yet. But the packs come out damp, and are put
 * to dry on a low shelf beside a sink. Water carries what lives in tap water through a damp wrap. Over the next days the
 * packs are opened for eleven cases; five to nine weeks later, seven of those patients have nodules at their ports.
 */

/** The evening load: all that it takes is put in at once. Gives the packs that are left for another load. */
export function runLateLoad(hospital: Hospital, packs: readonly Sealed[], from: number): readonly Sealed[] {
  const plain = packs.filter(({ state }) => !setTypes[state.set.type].implant)
  const chosen = plain.slice(-latePacks)
  runGoods(hospital, {
    workingDay: lateLoadDay,
    steriliser: steriliserA,
    packs: chosen,
    from,
    biological: false,
    shape: shortDryingCycle,
    place: lateShelf,
  })
  for (const { state } of chosen) if (state.round !== null) hospital.lowShelf.add(state.round)
  noteLater(hospital, chosen)
  return packs.filter((pack) => !chosen.includes(pack))
}

/** Asked seven weeks later, the technician of that evening remembers, and enters it as it was then. */
function noteLater(hospital: Hospital, packs: readonly Sealed[]): void {
  const shift = shiftOf(lateLoadDay)
  for (const [index, { state }] of packs.slice(0, 3).entries()) {
    if (state.round === null || state.readyAt === null) continue
    hospital.write({
      at: state.readyAt + 2 * minutes,
      madeAt: hospital.clock.at(failureReadDay, 612 + 2 * index),
      by: shift.machines,
      room: 'Store',
      kind: 'pack-condition-noted',
      body: {
        round: state.round,
        condition: 'wet',
        note: 'Entered late, when asked. Damp from the steriliser, as were others of this load; set to dry on the low shelf by the sink.',
      },
    })
  }
}

const { grown, silent, stained, untested } = lateWounds

/** What became of the exposed cases, in the order of their operations: seven of eleven have a wound. */
const fates: readonly (readonly [WoundSeen, number, number] | null)[] = [
  [grown, 52, 57],
  [silent, 44, 49],
  null,
  [grown, 39, 45],
  [stained, 47, 52],
  null,
  [stained, 50, 55],
  [untested, 36, 43],
  null,
  [stained, 41, 47],
  null,
]

/** The late wound of a case that opened one of the packs; null for those that have none so far. */
export function lateWound(hospital: Hospital, planned: PlannedCase): WoundToCome | null {
  const fate = fates[hospital.exposed.length] ?? null
  hospital.exposed.push(planned.id)
  if (fate === null) return null
  const [seen, onsetDays, notedDays] = fate
  return { seen, onsetDays, notedDays }
}
