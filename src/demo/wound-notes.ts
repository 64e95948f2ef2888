import type { PlannedCase } from './case-plan.ts'
import type { WoundAhead } from './follow-ups.ts'
import { type Hospital, minutes } from './hospital.ts'
import { instantOf } from './hospital-clock.ts'
import { infectionControl } from './people.ts'
import type { RoundId } from './stock.ts'
import { woundAfterHandWash } from './story-hand-wash.ts'
import { lateWound } from './story-late-wounds.ts'
import { lookAlikes, usualWounds, type WoundSeen } from './wound-kinds.ts'

/** A wound as it will be seen, so many calendar days after the operation. */
export interface WoundToCome {
  readonly seen: WoundSeen
  readonly onsetDays: number
  readonly notedDays: number
}

const day = 24 * 60 * minutes

/**
 * Notes the wound that a case leads to, if any: the ordinary ones of about one case in sixty, those of the days on
 * which the washer was away, and the planted late ones.
 */
export function noteWounds(
  hospital: Hospital,
  planned: PlannedCase,
  rounds: readonly RoundId[],
  end: number,
): WoundAhead | null {
  const late = rounds.some((round) => hospital.lowShelf.has(round))
  const wound = late
    ? lateWound(hospital, planned)
    : (woundAfterHandWash(hospital, planned, rounds) ?? ordinary(hospital, planned))
  if (wound === null) return null
  const { seen, onsetDays, notedDays } = wound
  const { judged, cultured: _, ...noted } = seen
  const dice = hospital.diceFor(`noted:${planned.id}`)
  const onsetAt = end + onsetDays * day
  const notedAt =
    hospital.clock.at(hospital.clock.dayAfter(planned.workingDay, notedDays), 0) + dice.whole(560, 690) * minutes
  const id = `wound:w-${planned.id.slice(-4)}` as const
  hospital.write({
    at: notedAt,
    by: infectionControl,
    room: 'Ward office',
    kind: 'wound-noted',
    body: { wound: id, case: planned.id, onsetAt: instantOf(onsetAt), ...noted },
  })
  if (late) hospital.lateWounds.push({ wound: id, notedAt })
  lookAfter(hospital, { id, seen, onsetAt, notedAt })
  return { onsetAt, notedAt, infection: judged?.outcome === 'infection' }
}

interface Course {
  readonly id: `wound:${string}`
  readonly seen: WoundSeen
  readonly onsetAt: number
  readonly notedAt: number
}

/** What follows: the laboratory, the surgeon, the judgement by criteria, and healing. */
function lookAfter(hospital: Hospital, { id, seen, onsetAt, notedAt }: Course): void {
  const { judged, cultured } = seen
  const said = (at: number) => ({ at, by: infectionControl, room: 'Ward office' }) as const
  if (cultured !== undefined) {
    const { afterDays, ...body } = cultured
    hospital.write({ ...said(notedAt + afterDays * day), kind: 'wound-cultured', body: { wound: id, ...body } })
  }
  if (judged === null) return
  const judgedAt = notedAt + 2 * day + 30 * minutes
  hospital.write({
    ...said(judgedAt),
    kind: 'wound-judged',
    body: { wound: id, depth: seen.depth, eventAt: instantOf(onsetAt), ...judged, criteria: [...judged.criteria] },
  })
  const what = seen.depth === 'superficial' ? 'opened' : 'drained'
  if (judged.outcome === 'infection') {
    hospital.write({ ...said(notedAt + 90 * minutes), kind: 'wound-treated', body: { wound: id, what } })
  }
  // What grows slowly heals slowly: those wounds are open yet.
  if (seen.acidFast !== 'notDone') return
  hospital.write({ ...said(notedAt + 24 * day), kind: 'wound-treated', body: { wound: id, what: 'healed' } })
}

function ordinary(hospital: Hospital, planned: PlannedCase): WoundToCome | null {
  const dice = hospital.diceFor(`wound:${planned.id}`)
  const risk = planned.procedure.woundClass === 'I' ? 0.009 : 0.018
  const infected = dice.chance(risk)
  if (!infected && !hospital.diceFor(`look-alike:${planned.id}`).chance(0.004)) return null
  const onsetDays = dice.whole(4, 13)
  const seen = dice.pick(infected ? usualWounds : lookAlikes)
  return { seen, onsetDays, notedDays: onsetDays + dice.whole(1, 5) }
}
