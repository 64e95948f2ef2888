import type { Source } from '#units/source.ts'
import type { Instant } from '../instant.ts'
import type { Policy } from '../policy.ts'
import { type CareDue, careDue } from './care-due.ts'
import { type LotOfIndicator, noLotKnown, type WantedIncubation } from './incubation.ts'
import { isProving } from './is-proving.ts'
import { returnAirRemoval, returnBiological } from './limits.ts'
import { biologicalOutcome, type LoadKnown, loadTime } from './load-fold.ts'
import type { MachineKnown } from './machine-fold.ts'
import { lastMajorRepair } from './major-repair.ts'
import { methodOf } from './method-of.ts'
import { provenByCycleType } from './sources.ts'
import { wantedIncubation } from './wanted-incubation.ts'

/**
 * Whether a steriliser is proven: never on this record; proven; or in need of being proven anew, with why and how far.
 */
export interface Qualification {
  readonly state: 'never' | 'qualified' | 'needsProof'
  readonly because: 'notOnRecord' | 'proven' | 'majorRepair' | 'outOfService'
  /** When it was proven, repaired or stopped. */
  readonly at: Instant | null
  /** Cycle types that lack good results in a row. */
  readonly programsOpen: readonly string[]
  readonly biological: { readonly good: number; readonly needed: number }
  /** Null where no air-removal test is asked. */
  readonly airRemoval: { readonly passed: number; readonly needed: number } | null
  /** Cycle types whose goods wait until they are proven anew: after a major repair, or while it is out of service. */
  readonly programsOut: readonly string[]
  /** Calibration and service, with the days by which they are due. */
  readonly care: readonly CareDue[]
  readonly source: Source
}

/** What the qualification is worked out by, besides the machine and its loads. */
export interface QualificationAsk {
  readonly policy: Policy
  readonly now: Instant
  readonly lotOf?: LotOfIndicator
}

/** Works out the qualification from the machine and the loads that were run to prove it, in any order. */
export function qualificationOf(
  machine: MachineKnown,
  proving: readonly LoadKnown[],
  { policy, now, lotOf = noLotKnown }: QualificationAsk,
): Qualification | undefined {
  if (methodOf(machine) === undefined) return undefined
  const { value: needed, source } = goodTestsNeeded(policy)
  const repaired = lastMajorRepair(machine)?.at ?? null
  const { state, since } = machine.service
  const returned = state === 'inService' ? since : null
  const out = state === 'withdrawn'
  const from = later(out ? since : null, repaired)
  const rows = rowsByProgram(machine.programs, proving, {
    from,
    needed,
    wanted: wantedIncubation(machine, policy, lotOf),
  })
  const programsOpen = [...rows].filter(([, row]) => row.best < needed).map(([program]) => program)
  const vacuum = machine.airRemoval === 'dynamic'
  const airNeeded = policy.limit(returnAirRemoval).value
  const rest = {
    programsOpen,
    biological: { good: Math.max(0, ...[...rows.values()].map((row) => row.best)), needed },
    airRemoval: vacuum ? { passed: machine.airRemovalPasses, needed: airNeeded } : null,
    care: careDue(machine, now),
    source,
  }
  const needsProof = { state: 'needsProof', programsOut: machine.programs } as const
  if (out) return { ...rest, ...needsProof, because: 'outOfService', at: since }
  const provenAt =
    [...rows.values()]
      .flatMap((row) => row.provenAt ?? [])
      .sort()
      .at(-1) ?? null
  const proven = later(returned, provenAt)
  // Each cycle type is proven for itself: that the machine is back in service frees those that were proven.
  if (repaired !== null && programsOpen.length > 0) {
    return { ...rest, ...needsProof, programsOut: programsOpen, because: 'majorRepair', at: repaired }
  }
  return proven === null
    ? { ...rest, state: 'never', because: 'notOnRecord', at: null, programsOut: [] }
    : { ...rest, state: 'qualified', because: 'proven', at: proven, programsOut: [] }
}

/** How many good tests in a row prove a cycle type, and where that stands: a change by the unit cites the unit. */
export function goodTestsNeeded(policy: Policy): { readonly value: number; readonly source: Source } {
  const { value, source } = policy.limit(returnBiological)
  return { value, source: source === returnBiological.source ? provenByCycleType : source }
}

interface Row {
  readonly best: number
  readonly provenAt: Instant | null
}

export interface RowAsk {
  readonly from: Instant | null
  /** Before which moment a test counts; left out: any. */
  readonly until?: Instant | null
  readonly needed: number
  readonly wanted: WantedIncubation
}

/** For each cycle type, the longest row of good results since a moment. */
function rowsByProgram(
  programs: readonly string[],
  proving: readonly LoadKnown[],
  ask: RowAsk,
): ReadonlyMap<string, Row> {
  return new Map(programs.map((program) => [program, rowOfProgram(program, proving, ask)]))
}

/** The longest row of good results of one cycle type in a time; growth and a failed cycle begin it anew. */
export function rowOfProgram(
  program: string,
  proving: readonly LoadKnown[],
  { from, until = null, ...asked }: RowAsk,
): Row {
  const isAsked = (load: LoadKnown): boolean => {
    const ran = loadTime(load)
    if (!isProving(load) || load.program !== program) return false
    if (ran === null) return from === null && until === null
    return (from === null || ran >= from) && (until === null || ran < until)
  }
  const inOrder = proving.filter(isAsked).sort((a, b) => ((loadTime(a) ?? '') < (loadTime(b) ?? '') ? -1 : 1))
  return rowOf(inOrder, asked)
}

function rowOf(
  loads: readonly LoadKnown[],
  { needed, wanted }: { readonly needed: number; readonly wanted: WantedIncubation },
): Row {
  let row = 0
  let best = 0
  let provenAt: Instant | null = null
  for (const load of loads) {
    const outcome = biologicalOutcome(load, wanted)
    if (outcome === 'positive' || load.cycle?.report.verdict === 'notMet') row = 0
    else if (outcome === 'negative') row += 1
    best = Math.max(best, row)
    if (row >= needed) provenAt = loadTime(load)
  }
  return { best, provenAt }
}

function later(a: Instant | null, b: Instant | null): Instant | null {
  if (a === null || b === null) return a ?? b
  return a > b ? a : b
}
