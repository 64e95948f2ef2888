import type { Bodies, TypedKept } from '../kinds.ts'
import type { EntryId } from '../entry.ts'
import type { Fold } from '../fold.ts'
import type { Instant } from '../instant.ts'
import type { Step } from '../round.ts'
import type { SubjectId } from '../subject.ts'
import { type Outage, withOutage, withReturn } from './outages.ts'
import type { Registered } from './read-in-force.ts'
import { isProving } from './is-proving.ts'
import { afterAirRemovalTest, afterProvingLoad, type MajorRepair, repairBegins } from './major-repair.ts'

export interface MachineKnown {
  readonly id: SubjectId<'machine'>
  readonly name: string
  readonly type: Bodies['machine-registered']['type']
  readonly airRemoval: Bodies['machine-registered']['airRemoval']
  readonly chamberLitres: number
  readonly independentRecord?: boolean | undefined
  readonly programs: readonly string[]
  readonly windows?: Bodies['machine-registered']['windows']
  readonly lumenClaims?: Bodies['machine-registered']['lumenClaims']
  readonly logMap: Bodies['machine-registered']['logMap'] | null
  /** What was registered and when, the oldest first, also what was corrected since: a cycle is read by what was in force. */
  readonly registered?: readonly Registered[] | undefined
  readonly service: { readonly state: 'inService' | 'withdrawn'; readonly since: Instant | null; readonly why: string }
  /** Every time that it was out of service, the oldest first: what ran is judged by how it stood then. */
  readonly outages?: readonly Outage[] | undefined
  readonly airRemovalTest: Step<Omit<Bodies['air-removal-tested'], 'machine'>> | null
  readonly leakTest: Step<Omit<Bodies['leak-tested'], 'machine'>> | null
  readonly foilTest?: Step<Omit<Bodies['foil-tested'], 'machine'>> | undefined
  readonly repairedAt: Instant | null
  /** Every major repair, the oldest first: what ran after one is proven by what was tested between it and the next. */
  readonly majorRepairs?: readonly MajorRepair[] | undefined
  /** The latest loads that were run to prove the machine, the newest last. */
  readonly provingLoads?: readonly SubjectId<'load'>[] | undefined
  readonly calibration: Step<Omit<Bodies['machine-calibrated'], 'machine'>> | null
  /** When it was last found within tolerance: what it ran since is in doubt once it is found out of it. */
  readonly lastGoodCalibration: Instant | null
  readonly serviced: Step<Omit<Bodies['machine-serviced'], 'machine'>> | null
  /** Air-removal tests passed in a row since the last repair, withdrawal or failure. */
  readonly airRemovalPasses: number
  /** The last air-removal tests, the newest last: a load is judged by the test of its own day. */
  readonly airRemovalTests: readonly {
    readonly at: Instant
    readonly result: Bodies['air-removal-tested']['result']
    readonly entry: EntryId
  }[]
  readonly lastLoad: { readonly id: SubjectId<'load'>; readonly at: Instant } | null
}

/**
 * Half a year of daily tests, and repeats: a test that is corrected that late still finds what was released by it. A pack may
 * stand on the shelf for longer.
 */
export const airRemovalTestsKept = 200

/** Enough for repeats and three good results of each of several programs. */
const provingLoadsKept = 24

export const machineFold: Fold<'machine', MachineKnown> = {
  subject: 'machine',
  begin: (id) => ({
    id,
    name: '',
    type: 'steamSteriliser',
    airRemoval: 'dynamic',
    chamberLitres: 0,
    programs: [],
    logMap: null,
    service: { state: 'inService', since: null, why: '' },
    airRemovalTest: null,
    leakTest: null,
    repairedAt: null,
    calibration: null,
    lastGoodCalibration: null,
    serviced: null,
    airRemovalPasses: 0,
    airRemovalTests: [],
    lastLoad: null,
  }),
  evolve(state, entry) {
    const step = <Body>(body: Body): Step<Body> => ({ ...body, at: entry.happenedAt, entry: entry.id, by: entry.by })
    switch (entry.kind) {
      case 'machine-registered': {
        const { machine: _, logMap, ...attributes } = entry.body
        return { ...state, ...attributes, logMap: logMap ?? null, registered: withRegistered(state, entry) }
      }
      case 'foil-tested': {
        const { machine: _, ...tested } = entry.body
        return { ...state, foilTest: step(tested) }
      }
      case 'machine-withdrawn':
        return {
          ...state,
          // A machine that is taken out again while it is out has been out since the first time.
          service: {
            state: 'withdrawn',
            since: state.service.state === 'withdrawn' ? state.service.since : entry.happenedAt,
            why: entry.body.why,
          },
          outages: withOutage(state.outages, entry.happenedAt),
          airRemovalPasses: 0,
        }
      case 'machine-returned':
        return {
          ...state,
          service: { state: 'inService', since: entry.happenedAt, why: entry.body.why },
          outages: withReturn(state.outages, entry.happenedAt),
        }
      case 'machine-calibrated': {
        const { machine: _, ...calibration } = entry.body
        const good = calibration.found === 'withinTolerance'
        return {
          ...state,
          calibration: step(calibration),
          lastGoodCalibration: good ? entry.happenedAt : state.lastGoodCalibration,
        }
      }
      case 'machine-serviced': {
        const { machine: _, ...serviced } = entry.body
        return { ...state, serviced: step(serviced) }
      }
      case 'machine-repaired':
        return {
          ...state,
          repairedAt: entry.happenedAt,
          airRemovalPasses: 0,
          ...(entry.body.major
            ? { majorRepairs: [...(state.majorRepairs ?? []), repairBegins(entry.happenedAt, state.provingLoads)] }
            : {}),
        }
      case 'air-removal-tested': {
        const { machine: _, ...test } = entry.body
        return {
          ...state,
          airRemovalTest: step(test),
          airRemovalPasses: test.result === 'passed' ? state.airRemovalPasses + 1 : 0,
          airRemovalTests: [
            ...state.airRemovalTests.slice(1 - airRemovalTestsKept),
            { at: entry.happenedAt, result: test.result, entry: entry.id },
          ],
          ...sinceRepair(state, (repair) => afterAirRemovalTest(repair, test.result)),
        }
      }
      case 'leak-tested': {
        const { machine: _, ...test } = entry.body
        return { ...state, leakTest: step(test) }
      }
      case 'load-built':
        return {
          ...state,
          lastLoad: { id: entry.body.load, at: entry.happenedAt },
          ...(isProving(entry.body) ? withProving(state, entry.body) : {}),
        }
      default:
        return state
    }
  },
  takeBack(state, entry, instead) {
    // What was withdrawn for good was never so; what was corrected was so until the time of its correction.
    if (entry.kind !== 'machine-registered' || instead === undefined) return state
    return { ...state, registered: withRegistered(state, entry) }
  },
  remembersFirst: true,
  standing: (state) => state.service.state,
}

function withRegistered(
  { registered = [] }: MachineKnown,
  {
    happenedAt: at,
    id: entry,
    corrects,
    body: { type, airRemoval, windows, logMap },
  }: Extract<TypedKept, { kind: 'machine-registered' }>,
): readonly Registered[] {
  const corrected = corrects === undefined ? {} : { corrects }
  return [
    ...registered,
    {
      at,
      entry,
      ...corrected,
      type,
      airRemoval,
      ...(windows === undefined ? {} : { windows }),
      logMap: logMap ?? null,
    },
  ]
}

function withProving(
  state: MachineKnown,
  built: Pick<Bodies['load-built'], 'load' | 'program'>,
): Pick<MachineKnown, 'provingLoads' | 'majorRepairs'> {
  return {
    provingLoads: [...(state.provingLoads ?? []).slice(1 - provingLoadsKept), built.load],
    ...sinceRepair(state, (repair) => afterProvingLoad(repair, built)),
  }
}

/** What the last major repair becomes; a machine that had none has nothing to keep. */
function sinceRepair(
  { majorRepairs }: MachineKnown,
  change: (repair: MajorRepair) => MajorRepair,
): Pick<MachineKnown, 'majorRepairs'> {
  const last = majorRepairs?.at(-1)
  if (majorRepairs === undefined || last === undefined) return {}
  return { majorRepairs: [...majorRepairs.slice(0, -1), change(last)] }
}
