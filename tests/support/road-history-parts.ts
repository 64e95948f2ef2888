import { createHash } from 'node:crypto'
import { type Instant, instant } from '#road/instant.ts'
import type { Bodies, KindName, TypedSent } from '#road/kinds.ts'
import { chamberMethods } from '#road/sterilising/method-of.ts'
import type { SubjectId } from '#road/subject.ts'
import type { SeededRandom } from './seeded-random.ts'

export type Steriliser = 'machine:s1' | 'machine:s2'
export const sterilisers: readonly [Steriliser, Steriliser] = ['machine:s1', 'machine:s2']

export const people = ['person:ada', 'person:bo', 'person:cy'] as const
export const steamPrograms = ['134 wrapped', '121 wrapped'] as const

export const handWash: Bodies['wash-recorded']['how'] = {
  kind: 'manual',
  detergent: 'mild',
  takenApart: true,
  lumensBrushed: 'noLumen',
  lumensFlushed: 'noLumen',
  finalRinse: 'purified',
}

export const cleanAndDry: Omit<Bodies['inspected'], 'round'> = {
  cleanliness: 'clean',
  magnified: true,
  function: 'works',
  insulation: 'notInsulated',
  dry: true,
}

export const redWound: Omit<Bodies['wound-noted'], 'wound' | 'case' | 'onsetAt'> = {
  depth: 'superficial',
  signs: 'redness',
  culture: 'notTaken',
  acidFast: 'notDone',
}

export const emergencyForm: NonNullable<Bodies['load-decided']['earlyImplant']> = {
  implant: 'mesh',
  emergency: 'bleeding, no other mesh',
  wouldHavePrevented: 'a second mesh',
}

export const impatience = { rules: ['release-implant-waits'], why: 'emergency of tonight' }

type Registration = {
  [K in KindName]: { readonly kind: K; readonly body: Bodies[K] }
}['person-registered' | 'device-registered' | 'set-registered' | 'machine-registered']

/** Who and what is there when a history begins; the second steriliser may be one of dry heat. */
export function registrations(
  sets: readonly { readonly id: SubjectId<'set'> }[],
  secondOfDryHeat: boolean,
): readonly Registration[] {
  return [
    ...people.map((person): Registration => ({
      kind: 'person-registered',
      body: { person, name: person, roles: [person === 'person:ada' ? 'manager' : 'reprocessing'] },
    })),
    {
      kind: 'device-registered',
      body: {
        device: 'device:d',
        name: 'Grasper',
        contact: 'critical',
        steam: 'allowed',
        // Its maker lists every method of a chamber, so that each machine of a history may have it.
        makerMethods: chamberMethods.map((method) => ({ method })),
        lumens: [],
        parts: 1,
        insulated: false,
        optic: false,
        singleUse: false,
      },
    },
    ...sets.map(({ id: set }): Registration => ({
      kind: 'set-registered',
      body: { set, name: set, countSheet: [{ device: 'device:d', count: 1 }] },
    })),
    ...sterilisers.map((machine): Registration => ({
      kind: 'machine-registered',
      body: {
        machine,
        name: machine,
        type: machine === 'machine:s2' && secondOfDryHeat ? 'dryHeatSteriliser' : 'steamSteriliser',
        airRemoval: machine === 'machine:s1' ? 'dynamic' : 'gravity',
        chamberLitres: 300,
        programs: [...steamPrograms],
      },
    })),
  ]
}

/** The kinds of which a random history corrects some. */
export const correctableKinds: ReadonlySet<KindName> = new Set([
  'load-built',
  'cycle-logged',
  'chemical-read',
  'biological-read',
  'air-removal-tested',
  'pack-opened',
  'wash-recorded',
  'use-ended',
])

/** The same entry said otherwise; undefined where nothing is to be said otherwise. */
export function corrected(wrong: TypedSent, random: SeededRandom, loads: number): TypedSent | undefined {
  const otherLoad: SubjectId<'load'> = `load:l${random.whole(Math.max(1, loads - 30), loads)}`
  switch (wrong.kind) {
    case 'load-built':
      return random.next() < 0.5
        ? { ...wrong, body: { ...wrong.body, machine: random.pick(sterilisers) } }
        : { ...wrong, body: { ...wrong.body, rounds: wrong.body.rounds.slice(1) } }
    case 'cycle-logged': {
      const verdict = random.pick(['met', 'notMet'] as const)
      return { ...wrong, body: { ...wrong.body, report: { ...wrong.body.report, verdict } } }
    }
    case 'chemical-read':
      return { ...wrong, body: { ...wrong.body, load: otherLoad } }
    case 'biological-read':
      return random.next() < 0.6
        ? { ...wrong, body: { ...wrong.body, result: wrong.body.result === 'growth' ? 'noGrowth' : 'growth' } }
        : { ...wrong, body: { ...wrong.body, load: otherLoad } }
    case 'air-removal-tested':
      return { ...wrong, body: { ...wrong.body, result: wrong.body.result === 'passed' ? 'failed' : 'passed' } }
    default:
      return undefined
  }
}

/** What is read of an indicator: now and then its control is missing, of another lot, or dead. */
export function indicatorRead(
  { load, lot, growth }: { readonly load: SubjectId<'load'>; readonly lot: string; readonly growth: boolean },
  random: SeededRandom,
): Bodies['biological-read'] {
  const control =
    random.next() < 0.04
      ? null
      : {
          lot: random.next() < 0.97 ? lot : 'other',
          result: random.next() < 0.96 ? ('growth' as const) : ('noGrowth' as const),
        }
  const result = growth ? 'growth' : 'noGrowth'
  return { load, lot, result, control, incubatedHours: load.endsWith('5') ? 6 : 48 }
}

export function laparoscopy(id: SubjectId<'case'>, plannedAt: Instant): Bodies['case-booked'] {
  return {
    case: id,
    patient: `p${id.slice(6)}`,
    procedure: 'laparoscopy',
    theatre: 'one',
    plannedAt,
    surgeon: 'person:ada',
    implantPlanned: false,
  }
}

/** A cycle's log as far as the road reads it. */
export function cycle(
  load: SubjectId<'load'>,
  program: string,
  [started, ended]: readonly [number, number],
  verdict: 'met' | 'notMet' | 'notEvaluable',
): Bodies['cycle-logged'] {
  return {
    load,
    program,
    startedAt: instant(Math.round(started)),
    endedAt: instant(Math.round(ended)),
    // Every load has a log of its own.
    log: createHash('sha256').update(load).digest('hex') as never,
    report: {
      verdict,
      holdingSeconds: 240,
      equilibrationSeconds: 10,
      fMinutes: 20,
      fReferenceC: 121.1,
      zK: 10,
      minC: 134.2,
      maxC: 135.4,
      maxSpreadK: 0.8,
      criteria: [],
      findings: [],
    },
  }
}
