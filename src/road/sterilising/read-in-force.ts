import { gasProgramByKey } from '#workings/gas/gas-program.ts'
import type { EntryId } from '../entry.ts'
import type { Instant } from '../instant.ts'
import type { Bodies } from '../kinds.ts'

type Body = Bodies['machine-registered']

/** What a machine was registered as from a moment on: how its air is removed, and how its logs are to be read. */
export interface Registered {
  readonly at: Instant
  readonly entry: EntryId
  /** The entry that this one corrects: from its own time on it stands for that one. */
  readonly corrects?: EntryId | undefined
  readonly type: Body['type']
  readonly airRemoval: Body['airRemoval']
  readonly windows?: Body['windows']
  readonly logMap: Body['logMap'] | null
}

interface Machine {
  readonly registered?: readonly Registered[] | undefined
  readonly windows?: Body['windows']
  readonly logMap: Body['logMap'] | null
}

/**
 * The programmes and the columns of a machine as they were at a moment; null asks for those of now. A change is in force
 * from the time that its entry gives: what ran before it is read by what was registered then. What nobody had registered
 * yet, and nothing but the machine tells, is taken as it was registered first.
 */
export function readInForceAt(
  machine: Machine,
  at: Instant | null,
): { readonly windows: Body['windows']; readonly logMap: Body['logMap'] | null } {
  const { registered = [] } = machine
  if (at === null || registered.length === 0) return { windows: machine.windows, logMap: machine.logMap }
  const inForce = standingAt(registered, at)
  const laterOn = registered.filter((each) => each.at > at)
  const own = inForce?.windows
  const first = laterOn.reduce<NonNullable<Body['windows']>>(
    (known, { windows = {} }) => ({ ...windows, ...known }),
    {},
  )
  // A programme that is published had the limits of the policy until the machine had its own.
  const untold = Object.entries(first).filter(([program]) => gasProgramByKey(program) === undefined)
  const windows = { ...Object.fromEntries(untold), ...own }
  return {
    windows: Object.keys(windows).length === 0 ? own : windows,
    logMap: inForce?.logMap ?? laterOn.find((each) => each.logMap !== null)?.logMap ?? null,
  }
}

/**
 * How air left the chamber at a moment, as it was registered then; before the first time, as it was first. What was a machine
 * of another type was registered by mistake, and is taken as it is now.
 */
export function airRemovalAt(
  machine: {
    readonly registered?: readonly Registered[] | undefined
    readonly type: Body['type']
    readonly airRemoval: Body['airRemoval']
  },
  moment: Instant,
): Body['airRemoval'] {
  const { registered = [] } = machine
  const then = standingAt(registered, moment) ?? registered[0]
  return then?.type === machine.type ? then.airRemoval : machine.airRemoval
}

/** The last that was registered by a moment and that none of the others had corrected by then. */
function standingAt(registered: readonly Registered[], at: Instant): Registered | undefined {
  const until = registered.filter((each) => each.at <= at)
  const corrected = new Set(until.map((each) => each.corrects))
  return until.findLast((each) => !corrected.has(each.entry))
}
