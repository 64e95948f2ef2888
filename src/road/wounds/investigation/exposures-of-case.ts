import type { BathKnown } from '../../baths/bath-fold.ts'
import type { ImmersionKnown } from '../../baths/immersion-fold.ts'
import { inspectionPassed, type RoundKnown } from '../../round.ts'
import type { WashKnown } from '../../cleaning/fold.ts'
import { type Instant, minutesBetween } from '../../instant.ts'
import type { LoadKnown } from '../../sterilising/load-fold.ts'
import type { SubjectId } from '../../subject.ts'
import type { CaseLine } from '../surveillance/line.ts'
import type { Condition, ExposureType } from './exposure-types.ts'

/** One thing that a case met on its way: what kind, which, when, and how much of it where it has an amount. */
export interface CaseExposure {
  readonly type: ExposureType
  readonly id: string
  readonly at: Instant
  readonly amount?: number
  readonly flags: readonly Condition[]
}

/** What the record knows of whatever the rounds of the cases touched, by id. */
export interface Touched {
  readonly rounds: ReadonlyMap<SubjectId<'round'>, RoundKnown>
  readonly washes: ReadonlyMap<SubjectId<'wash'>, WashKnown>
  readonly loads: ReadonlyMap<SubjectId<'load'>, LoadKnown>
  readonly immersions: ReadonlyMap<SubjectId<'immersion'>, ImmersionKnown>
  readonly baths: ReadonlyMap<SubjectId<'bath'>, BathKnown>
  /** Limits of the policy that tell a long wait and a long operation. */
  readonly soakWithinMinutes: number
  readonly longMinutes: number
}

/**
 * All that one case was exposed to: each round that was opened for it, with its set, wash, washer, water, bath,
 * load, machine, and the person of each step; the theatre, the surgeon, its place on the list, its length.
 * What was not as it should be is a flag, and a condition of its own: a broken step is often a condition, not a thing.
 */
export function exposuresOfCase(
  line: CaseLine,
  opened: readonly SubjectId<'round'>[],
  touched: Touched,
): readonly CaseExposure[] {
  const own = exposuresOfOperation(line, touched)
  const rounds = opened.flatMap((id) => {
    const round = touched.rounds.get(id)
    return round === undefined ? [] : exposuresOfRound(round, line.at, touched)
  })
  return mergeSame([...own, ...rounds])
}

function exposuresOfOperation(line: CaseLine, { longMinutes }: Touched): readonly CaseExposure[] {
  const { at } = line
  const found: CaseExposure[] = [{ type: 'surgeon', id: line.surgeon, at, flags: [] }]
  if (line.theatre !== null) found.push({ type: 'theatre', id: line.theatre, at, flags: [] })
  if (line.position !== null && line.position > 1)
    found.push({ type: 'condition', id: 'notFirstOnList', at, amount: line.position - 1, flags: [] })
  if (line.minutes > longMinutes)
    found.push({ type: 'condition', id: 'longOperation', at, amount: line.minutes, flags: [] })
  if (line.implant) found.push({ type: 'condition', id: 'implant', at, flags: [] })
  for (const [measure, state] of Object.entries(line.prevention))
    if (state === 'notDone') found.push({ type: 'missedPrevention', id: measure, at, flags: [] })
  return found
}

function exposuresOfRound(round: RoundKnown, at: Instant, touched: Touched): readonly CaseExposure[] {
  return [
    ...(round.set === null ? [] : [{ type: 'set' as const, id: round.set, at, flags: [] }]),
    ...waitOf(round, touched),
    ...washOf(round, touched),
    ...inspectionOf(round),
    ...bathOf(round, touched),
    ...loadOf(round, touched),
    ...personOf('sealedBy', round.sealed),
    ...storeOf(round),
  ]
}

function personOf(
  type: 'washedBy' | 'inspectedBy' | 'sealedBy' | 'immersedBy',
  step: { readonly by: SubjectId<'person'>; readonly at: Instant } | null,
): readonly CaseExposure[] {
  return step === null ? [] : [{ type, id: step.by, at: step.at, flags: [] }]
}

function waitOf({ began, soak }: RoundKnown, { soakWithinMinutes }: Touched): readonly CaseExposure[] {
  if (began === null || began.because !== 'use') return []
  if (soak === null) return [{ type: 'condition', id: 'notSoaked', at: began.at, flags: [] }]
  const wait = Math.round(minutesBetween(began.at, soak.at))
  return wait > soakWithinMinutes ? [{ type: 'condition', id: 'lateSoak', at: soak.at, amount: wait, flags: [] }] : []
}

function washOf({ wash }: RoundKnown, { washes }: Touched): readonly CaseExposure[] {
  if (wash === null) return []
  const known = washes.get(wash.id)
  const { at, how } = wash
  const flags: Condition[] = []
  if (!how.takenApart) flags.push('notTakenApart')
  if (how.kind === 'manual' && how.lumensBrushed === 'no') flags.push('lumenNotBrushed')
  return [
    { type: 'wash', id: wash.id, at, flags },
    ...personOf('washedBy', wash),
    ...(how.kind === 'washer'
      ? [{ type: 'washer' as const, id: how.machine, at, flags }]
      : [{ type: 'condition' as const, id: 'washedByHand', at, flags }]),
    ...(how.kind === 'manual' && how.finalRinse !== 'purified' && how.finalRinse !== 'sterile'
      ? [{ type: 'condition' as const, id: 'rinsedWithTapOrSoftened', at, flags: [] }]
      : []),
    ...(known?.outlets ?? []).map((outlet) => ({ type: 'outlet' as const, id: outlet, at, flags: [] })),
    ...presentOf(known?.detergentLot).map((id) => ({ type: 'lot' as const, id, at, flags: [] })),
    ...flags.map((flag) => ({ type: 'condition' as const, id: flag, at, flags: [] })),
  ]
}

function inspectionOf({ inspection }: RoundKnown): readonly CaseExposure[] {
  if (inspection === null) return []
  const { at } = inspection
  const not = (id: Condition): CaseExposure => ({ type: 'condition', id, at, flags: [] })
  return [
    ...personOf('inspectedBy', inspection),
    ...(inspection.magnified ? [] : [not('notMagnified')]),
    ...(inspection.dry ? [] : [not('packedWet')]),
    ...(inspectionPassed(inspection) ? [] : [not('inspectionNotPassed')]),
  ]
}

function bathOf({ immersion }: RoundKnown, { immersions, baths }: Touched): readonly CaseExposure[] {
  if (immersion === null) return []
  const known = immersions.get(immersion.id)
  const bath = presentOf(known?.bath).flatMap((id) => baths.get(id) ?? [])[0]
  if (known === undefined || bath === undefined) return []
  const { at } = immersion
  const use = bath.uses.find((each) => each.immersion === immersion.id)
  const flags: Condition[] = []
  const strip = use?.strip ?? null
  if (strip === null) flags.push('bathNotTested')
  else if (strip.result === 'fail') flags.push('bathTooWeak')
  if (bath.expiresAt !== null && at > bath.expiresAt) flags.push('bathTooOld')
  const age =
    bath.activatedAt === null ? undefined : Math.max(0, Math.floor(minutesBetween(bath.activatedAt, at) / 1440))
  return [
    { type: 'bath', id: bath.id, at, ...(age === undefined ? {} : { amount: age }), flags },
    ...(bath.product === null ? [] : [{ type: 'bathProduct' as const, id: bath.product, at, flags: [] }]),
    ...personOf('immersedBy', immersion),
    ...known.rinses.map((rinse) => ({ type: 'outlet' as const, id: rinse.outlet, at: rinse.at, flags: [] })),
    ...flags.map((flag) => ({ type: 'condition' as const, id: flag, at, flags: [] })),
  ]
}

function loadOf({ load, decision, failedIndicators }: RoundKnown, { loads }: Touched): readonly CaseExposure[] {
  if (load === null) return []
  const known = loads.get(load.id)
  const { at } = load
  const flags: Condition[] = []
  if (decision?.outcome !== 'released') flags.push('notReleased')
  if (failedIndicators.some((each) => each.load === load.id)) flags.push('indicatorFailed')
  if (known?.cycle === null) flags.push('cycleNotLogged')
  return [
    { type: 'load', id: load.id, at, flags },
    ...presentOf(known?.machine).map((id) => ({ type: 'steriliser' as const, id, at, flags })),
    ...flags.map((flag) => ({ type: 'condition' as const, id: flag, at, flags: [] })),
  ]
}

function storeOf({ stored, damage }: RoundKnown): readonly CaseExposure[] {
  return [
    ...(stored === null ? [] : [{ type: 'store' as const, id: stored.place, at: stored.at, flags: [] }]),
    ...(damage === null ? [] : [{ type: 'condition' as const, id: 'packDamaged', at: damage.at, flags: [] }]),
  ]
}

/** Nothing or one. */
function presentOf<Value>(value: Value | null | undefined): readonly Value[] {
  return value === null || value === undefined ? [] : [value]
}

/** A case meets a thing once: the flags of all its meetings together, and the greatest amount. */
function mergeSame(exposures: readonly CaseExposure[]): readonly CaseExposure[] {
  const byKey = new Map<string, CaseExposure>()
  for (const each of exposures) {
    const key = `${each.type} ${each.id}`
    const before = byKey.get(key)
    if (before === undefined) {
      byKey.set(key, each)
      continue
    }
    const amounts = [before.amount, each.amount].filter((amount) => amount !== undefined)
    byKey.set(key, {
      ...before,
      ...(amounts.length === 0 ? {} : { amount: Math.max(...amounts) }),
      flags: [...new Set([...before.flags, ...each.flags])],
    })
  }
  return [...byKey.values()]
}
