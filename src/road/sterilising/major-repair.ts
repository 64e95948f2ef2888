import type { Bodies } from '../kinds.ts'
import type { Instant } from '../instant.ts'
import type { SubjectId } from '../subject.ts'

type LoadId = SubjectId<'load'>

/** A major repair, with what was tested between it and the next: no test from before or from later speaks for that time. */
export interface MajorRepair {
  readonly at: Instant
  /** Air-removal tests passed in a row since: now, and at best. A test that fails much later is another rule's. */
  readonly airRemoval: { readonly row: number; readonly best: number }
  /** Of each program, the first loads that were built to prove it: daily tests of later months do not push them out. */
  readonly proving: Readonly<Record<string, readonly LoadId[]>>
  /** The last that were built before it: one of them may have been run after it. */
  readonly builtBefore: readonly LoadId[]
}

/** What a machine is asked about when a load of it is: its major repairs, and the latest loads that prove it. */
interface Repaired {
  readonly majorRepairs?: readonly MajorRepair[] | undefined
  readonly provingLoads?: readonly LoadId[] | undefined
}

/** Enough for a week of repeats of one program. */
const provingKept = 24

/** No steriliser has more test loads standing before it at once. */
const standingAtOnce = 8

export function repairBegins(at: Instant, provingLoads: readonly LoadId[] = []): MajorRepair {
  return { at, airRemoval: { row: 0, best: 0 }, proving: {}, builtBefore: provingLoads.slice(-standingAtOnce) }
}

export function afterAirRemovalTest(repair: MajorRepair, result: Bodies['air-removal-tested']['result']): MajorRepair {
  const row = result === 'passed' ? repair.airRemoval.row + 1 : 0
  return { ...repair, airRemoval: { row, best: Math.max(row, repair.airRemoval.best) } }
}

export function afterProvingLoad(
  repair: MajorRepair,
  { load, program }: Pick<Bodies['load-built'], 'load' | 'program'>,
): MajorRepair {
  const first = repair.proving[program] ?? []
  if (first.length >= provingKept) return repair
  return { ...repair, proving: { ...repair.proving, [program]: [...first, load] } }
}

export function lastMajorRepair({ majorRepairs }: Pick<Repaired, 'majorRepairs'>): MajorRepair | undefined {
  return majorRepairs?.at(-1)
}

/** The major repair that a load of a moment ran after; until the next one, if there was one. */
export function repairBefore(
  { majorRepairs = [] }: Pick<Repaired, 'majorRepairs'>,
  ranAt: Instant,
): (MajorRepair & { readonly until: Instant | null }) | undefined {
  const place = majorRepairs.findLastIndex((repair) => repair.at <= ranAt)
  const repair = majorRepairs[place]
  return repair === undefined ? undefined : { ...repair, until: majorRepairs[place + 1]?.at ?? null }
}

/** The loads that may prove a program for what ran at a moment; none where no major repair went before. */
export function provingLoadsFor(machine: Repaired, program: string, ranAt: Instant): readonly LoadId[] {
  const repair = repairBefore(machine, ranAt)
  if (repair === undefined) return []
  const latest = repair.until === null ? (machine.provingLoads ?? []) : []
  return [...new Set([...repair.builtBefore, ...(repair.proving[program] ?? []), ...latest])]
}

/** The loads on record that were run to prove a machine: the first since its last major repair, and the latest. */
export function provingLoadsOf(machine: Repaired): readonly LoadId[] {
  const repair = lastMajorRepair(machine)
  const first = repair === undefined ? [] : [...repair.builtBefore, ...Object.values(repair.proving).flat()]
  return [...new Set([...first, ...(machine.provingLoads ?? [])])]
}
