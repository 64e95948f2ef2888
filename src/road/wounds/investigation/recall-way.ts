import type { Instant } from '../../instant.ts'
import { loadTime } from '../../sterilising/load-fold.ts'
import { isSubjectOf, type SubjectId } from '../../subject.ts'
import type { CaseExposure, Touched } from './exposures-of-case.ts'
import type { ExposureType } from './exposure-types.ts'

/** What is recalled, and from when on where the beginning is taken from the first infected case that met it. */
export interface RecallStep {
  readonly of: SubjectId<'load' | 'bath' | 'lot'>
  readonly since: Instant | null
}

/** Why there is no recall of a suspect itself, and what is done instead: the screens have the words. */
export const withoutRecall = ['washing', 'water', 'set', 'person', 'place', 'case', 'process', 'solution'] as const
export type WithoutRecall = (typeof withoutRecall)[number]

/** From a suspect to everything else that it touched: the recalls that do it, or why there is none. */
export interface RecallWay {
  readonly recalls: readonly RecallStep[]
  readonly without: WithoutRecall | null
}

const reasons: Readonly<Record<Exclude<ExposureType, 'load' | 'lot' | 'bath' | 'steriliser'>, WithoutRecall>> = {
  wash: 'washing',
  washer: 'washing',
  outlet: 'water',
  bathProduct: 'solution',
  set: 'set',
  washedBy: 'person',
  inspectedBy: 'person',
  immersedBy: 'person',
  sealedBy: 'person',
  store: 'place',
  theatre: 'case',
  surgeon: 'case',
  missedPrevention: 'case',
  condition: 'process',
}

/** Conditions of the operation itself: nothing of them is left in a pack. */
const ofOperation: ReadonlySet<string> = new Set(['notFirstOnList', 'longOperation', 'implant'])

type Infected = readonly { readonly exposures: readonly CaseExposure[] }[]
type Known = Pick<Touched, 'loads' | 'immersions' | 'baths'>

/**
 * The way from one suspect to what else it touched. A steriliser is recalled by the first of its loads that an infected
 * case met, from that load on; the water of an outlet and a solution by the baths that the infected met with them.
 */
export function recallWay(type: string, id: string, infected: Infected, known: Known): RecallWay {
  const met = infected.flatMap(({ exposures }) => exposures)
  switch (type) {
    case 'condition':
      return { recalls: [], without: ofOperation.has(id) ? 'case' : 'process' }
    case 'load':
    case 'bath':
    case 'lot':
      return { recalls: [{ of: id as RecallStep['of'], since: null }], without: null }
    case 'steriliser':
      return { recalls: firstLoadOn(id, met, known), without: null }
    case 'outlet':
      return { recalls: bathsRinsedAt(id, met, known), without: 'water' }
    case 'bathProduct':
      return { recalls: bathsOf(met, known, (bath) => known.baths.get(bath)?.product === id), without: 'solution' }
    default:
      return { recalls: [], without: type in reasons ? reasons[type as keyof typeof reasons] : 'case' }
  }
}

function firstLoadOn(machine: string, met: readonly CaseExposure[], { loads }: Known): readonly RecallStep[] {
  const own = met
    .flatMap(({ type, id }) =>
      type === 'load' && isSubjectOf('load', id as SubjectId) ? [id as SubjectId<'load'>] : [],
    )
    .flatMap((id) => loads.get(id) ?? [])
    .filter((load) => load.machine === machine)
    .map((load) => ({ of: load.id, since: loadTime(load) }))
    .sort((a, b) => ((a.since ?? '') < (b.since ?? '') ? -1 : 1))
  return own.slice(0, 1)
}

function bathsRinsedAt(outlet: string, met: readonly CaseExposure[], known: Known): readonly RecallStep[] {
  const rinsed = new Set(
    [...known.immersions.values()].flatMap((immersion) =>
      immersion.rinses.some((rinse) => rinse.outlet === outlet) && immersion.bath !== null ? [immersion.bath] : [],
    ),
  )
  return bathsOf(met, known, (bath) => rinsed.has(bath))
}

function bathsOf(
  met: readonly CaseExposure[],
  { baths }: Known,
  wanted: (bath: SubjectId<'bath'>) => boolean,
): readonly RecallStep[] {
  const ids = new Set(met.flatMap(({ type, id }) => (type === 'bath' ? [id as SubjectId<'bath'>] : [])))
  return [...ids].filter((id) => baths.has(id) && wanted(id)).map((of) => ({ of, since: null }))
}
