import type { Celsius } from '#units/quantities.ts'
import type { AttachmentDigest } from '../attachment.ts'
import { caseKnown, caseStep, hoursAgo } from '../deciding/case-facts.ts'
import { casePolicy, type ChangedLimits } from '../deciding/case-policy.ts'
import type { Exception } from '../entry.ts'
import { noGas } from '../gases/load-gas.ts'
import type { Bodies } from '../kinds.ts'
import type { SubjectId } from '../subject.ts'
import type { CycleReport } from './entries.ts'
import type { LoadKnown } from './load-fold.ts'
import { type ChamberMethod, machineTypeOf } from './method-of.ts'
import { noLotKnown } from './incubation.ts'
import { wantedIncubation } from './wanted-incubation.ts'
import { releaseImplantWaits } from './rules/release-implant-waits.ts'

/** What is known of one pack and its load when its release is asked. */
export interface ReleaseCase {
  readonly method: ChamberMethod
  readonly airRemoval: 'dynamic' | 'gravity' | 'none'
  readonly airRemovalTest: 'passed' | 'failed' | 'notDone'
  readonly machineInService: boolean
  readonly independentRecord: boolean
  readonly implant: boolean
  readonly physical: 'met' | 'notMet' | 'notEvaluable' | 'missing'
  readonly outside: 'passed' | 'failed' | 'missing' | 'notRead'
  readonly inside: 'notSeen' | 'passed' | 'failed' | 'missing'
  readonly challenge: 'none' | 'passed' | 'failed' | 'notRead'
  readonly biological: 'none' | 'pending' | 'negative' | 'positive'
  readonly control: 'positive' | 'negative' | 'otherLot' | 'none'
  readonly incubatedHours?: number | undefined
  readonly makersHours?: number | undefined
  readonly pack: 'intact' | Bodies['pack-condition-noted']['condition']
  readonly pastDate: boolean
  readonly recalled: boolean
  readonly early?:
    | { readonly formComplete: boolean; readonly allowedBy: 'surgeonInCharge' | 'manager' | 'other' }
    | undefined
  readonly wrapMaterial: NonNullable<Bodies['pack-sealed']['material']>
  readonly cancelled: boolean
  readonly aeration?:
    | {
        readonly temperatureC: Celsius
        readonly hours: number
        readonly ended: boolean
        readonly makerHours?: number | undefined
      }
    | undefined
  readonly limits: ChangedLimits
}

const load = 'load:case'
const machine = 'machine:case'
const round = 'round:case'
const surgeon = 'person:allowing'
const program = 'case'
const lot = 'b1'
const caseLot: SubjectId<'lot'> = 'lot:case'

/** What the rules would know of this case, and the release that is asked. */
export function releaseCaseKnown(given: ReleaseCase): {
  readonly known: readonly { readonly id: SubjectId }[]
  readonly body: Bodies['load-decided']
  readonly exception: Exception | undefined
} {
  const form = earlyForm(given)
  return {
    known: [loadOf(given), machineOf(given), packOf(given), ...allowing(given), ...lotsOf(given)],
    body: {
      load,
      packs: [{ round, outcome: 'released' }],
      ...(form === undefined ? {} : { earlyImplant: form }),
    },
    exception:
      given.early === undefined
        ? undefined
        : { allowedBy: surgeon, rules: [releaseImplantWaits.id], why: 'emergency, given with the case' },
  }
}

/** The form of an early release; undefined when it is not asked or not filled in. */
export function earlyForm({ early }: ReleaseCase): Bodies['load-decided']['earlyImplant'] {
  if (early === undefined || !early.formComplete) return undefined
  return { implant: 'given', emergency: 'given with the case', wouldHavePrevented: 'given with the case' }
}

function loadOf(given: ReleaseCase) {
  return caseKnown('load', load, {
    machine,
    program,
    purpose: 'goods',
    rounds: [round],
    builtAt: hoursAgo(3),
    challenge: {
      ...(given.biological === 'none' ? {} : { biologicalLot: lot }),
      ...(given.challenge === 'none' ? {} : { chemicalType: '5' as const }),
    },
    cycle: cycleOf(given),
    chemical: chemicalOf(given),
    biological: biologicalOf(given),
    gas: gasOf(given),
  })
}

function gasOf({ cancelled, aeration }: ReleaseCase): LoadKnown['gas'] {
  return {
    ...noGas,
    cancelled: cancelled ? caseStep(hoursAgo(2), { cause: 'unknown' as const }) : null,
    ...(aeration === undefined
      ? {}
      : {
          aeration: caseStep(hoursAgo(aeration.hours), {
            place: 'aerator' as const,
            setC: aeration.temperatureC,
            ...(aeration.makerHours === undefined ? {} : { makerHours: aeration.makerHours }),
          }),
          aerated: aeration.ended ? caseStep(hoursAgo(0), { lowestC: aeration.temperatureC }) : null,
        }),
  }
}

function cycleOf({ physical }: ReleaseCase): LoadKnown['cycle'] {
  if (physical === 'missing') return null
  return caseStep(hoursAgo(2), {
    program,
    startedAt: hoursAgo(3),
    endedAt: hoursAgo(2),
    log: '0'.repeat(64) as AttachmentDigest,
    report: reportSaying(physical),
  })
}

function reportSaying(verdict: CycleReport['verdict']): CycleReport {
  const none = {
    holdingSeconds: null,
    equilibrationSeconds: null,
    fMinutes: null,
    minC: null,
    maxC: null,
    maxSpreadK: null,
  }
  return { verdict, ...none, fReferenceC: 121.1, zK: 10, criteria: [], findings: [] }
}

function chemicalOf({ outside, inside, challenge }: ReleaseCase): LoadKnown['chemical'] {
  const read = (where: Bodies['chemical-read']['where'], type: '1' | '5', result: 'passed' | 'failed' | 'missing') =>
    caseStep(hoursAgo(1), { where, type, result })
  return [
    ...(outside === 'notRead' ? [] : [read('outsidePack', '1', outside)]),
    ...(inside === 'notSeen' ? [] : [read('insidePack', '5', inside)]),
    ...(challenge === 'none' || challenge === 'notRead' ? [] : [read('challengeDevice', '5', challenge)]),
  ]
}

/** The lot of a rapid indicator, with the time that its maker asks for. */
function lotsOf({ makersHours }: ReleaseCase) {
  return makersHours === undefined ? [] : [caseKnown('lot', caseLot, { incubation: { hours: makersHours } })]
}

function biologicalOf(given: ReleaseCase): LoadKnown['biological'] {
  const { biological, control, makersHours } = given
  if (biological === 'none' || biological === 'pending') return []
  return [
    caseStep(hoursAgo(0), {
      lot,
      result: biological === 'positive' ? ('growth' as const) : ('noGrowth' as const),
      control:
        control === 'none'
          ? null
          : {
              lot: control === 'otherLot' ? 'b2' : lot,
              result: control === 'negative' ? ('noGrowth' as const) : ('growth' as const),
            },
      incubatedHours:
        given.incubatedHours ??
        makersHours ??
        wantedIncubation({ type: machineTypeOf[given.method] }, casePolicy(given.limits), noLotKnown).hours,
      ...(makersHours === undefined ? {} : { makersHours, fromLot: caseLot }),
    }),
  ]
}

function machineOf(given: ReleaseCase) {
  const test = given.airRemovalTest
  return caseKnown('machine', machine, {
    name: 'The steriliser',
    type: machineTypeOf[given.method],
    airRemoval: given.method === 'steam' ? given.airRemoval : 'none',
    independentRecord: given.independentRecord,
    programs: [program],
    service: given.machineInService
      ? { state: 'inService', since: null, why: '' }
      : { state: 'withdrawn', since: hoursAgo(4), why: 'given with the case' },
    airRemovalTests: test === 'notDone' ? [] : [{ ...caseStep(hoursAgo(5), { result: test }) }],
  })
}

function packOf(given: ReleaseCase) {
  return caseKnown('round', round, {
    sealed: caseStep(hoursAgo(4), {
      wrap: 'wrap' as const,
      material: given.wrapMaterial,
      insideIndicator: null,
      outsideIndicator: null,
      counted: [],
      implant: given.implant,
      ...(given.pastDate ? { useBefore: hoursAgo(24) } : {}),
    }),
    load: caseStep(hoursAgo(3), { id: load }),
    damage: given.pack === 'intact' ? null : caseStep(hoursAgo(1), { condition: given.pack }),
  })
}

function allowing({ early }: ReleaseCase): readonly { readonly id: SubjectId }[] {
  if (early === undefined) return []
  return [caseKnown('person', surgeon, { roles: [early.allowedBy === 'other' ? 'reprocessing' : early.allowedBy] })]
}
