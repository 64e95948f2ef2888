import type { Fold } from '../fold.ts'
import type { Instant } from '../instant.ts'
import type { Bodies } from '../kinds.ts'
import type { Step } from '../round.ts'
import type { SubjectId } from '../subject.ts'
import { BathCelsius } from './entries.ts'
import type { BathProductId } from './products.ts'

export type StripKnown = Step<Omit<Bodies['strip-read'], 'bath'>>
export type TemperatureKnown = Step<{ readonly celsius: number }>

/** One immersion, with the strip and the temperature that were read for it. */
export interface BathUseKnown {
  readonly immersion: SubjectId<'immersion'>
  readonly at: Instant
  readonly strip: StripKnown | null
  readonly temperature: TemperatureKnown | null
}

export interface BathKnown {
  readonly id: SubjectId<'bath'>
  readonly product: BathProductId | null
  readonly lots: readonly SubjectId<'lot'>[]
  readonly place: string
  readonly litres: number
  readonly activatedAt: Instant | null
  readonly expiresAt: Instant | null
  readonly toppedUp: readonly Instant[]
  readonly temperature: TemperatureKnown | null
  /** The newest strip that no immersion has used up and no topping up has made void. */
  readonly freshStrip: StripKnown | null
  readonly strips: readonly Pick<StripKnown, 'at' | 'entry' | 'lot' | 'result' | 'readAfterSeconds'>[]
  readonly uses: readonly BathUseKnown[]
  readonly retired: Step<Omit<Bodies['bath-retired'], 'bath'>> | null
  readonly spills: readonly Step<Omit<Bodies['spill-recorded'], 'bath'>>[]
}

export const bathFold: Fold<'bath', BathKnown> = {
  subject: 'bath',
  begin: (id) => ({
    id,
    product: null,
    lots: [],
    place: '',
    litres: 0,
    activatedAt: null,
    expiresAt: null,
    toppedUp: [],
    temperature: null,
    freshStrip: null,
    strips: [],
    uses: [],
    retired: null,
    spills: [],
  }),
  evolve(state, entry) {
    const step = <Body>(body: Body): Step<Body> => ({ ...body, at: entry.happenedAt, entry: entry.id, by: entry.by })
    switch (entry.kind) {
      case 'bath-poured': {
        const { product, lot, place, litres, activatedAt, expiresAt } = entry.body
        return { ...state, product, lots: [...state.lots, lot], place, litres, activatedAt, expiresAt }
      }
      case 'bath-topped-up':
        // What was activated when stays as it is; the strip was read before the mixing and says nothing of it.
        return {
          ...state,
          lots: state.lots.includes(entry.body.lot) ? state.lots : [...state.lots, entry.body.lot],
          toppedUp: [...state.toppedUp, entry.happenedAt],
          freshStrip: null,
        }
      case 'bath-warmed':
        return {
          ...state,
          temperature: isTemperature(entry.body.celsius) ? step({ celsius: entry.body.celsius }) : null,
        }
      case 'strip-read': {
        const { bath: _, ...read } = entry.body
        const { lot, result, readAfterSeconds } = read
        const strip = { at: entry.happenedAt, entry: entry.id, lot, result, readAfterSeconds }
        return { ...state, freshStrip: step(read), strips: [...state.strips, strip] }
      }
      case 'immersion-started':
        // A strip speaks for one use.
        return {
          ...state,
          freshStrip: null,
          uses: [
            ...state.uses,
            {
              immersion: entry.body.immersion,
              at: entry.happenedAt,
              strip: state.freshStrip,
              temperature: state.temperature,
            },
          ],
        }
      case 'bath-retired': {
        const { bath: _, ...retired } = entry.body
        return { ...state, retired: step(retired) }
      }
      case 'spill-recorded': {
        const { bath: _, ...spill } = entry.body
        return { ...state, spills: [...state.spills, step(spill)] }
      }
      default:
        return state
    }
  },
  standing: bathStanding,
}

/** A reading that no bath can have, as older versions kept it, tells nothing, and the one before it is not true any more. */
function isTemperature(celsius: number): boolean {
  return BathCelsius.safeParse(celsius).success
}

export type BathStanding = 'inUse' | 'failedStrip' | 'discarded'

export function bathStanding(bath: BathKnown): BathStanding {
  if (bath.retired !== null) return 'discarded'
  // Once failed it stays so: a later pass of a bath that failed rescues nothing.
  return bath.strips.some((strip) => strip.result === 'fail') ? 'failedStrip' : 'inUse'
}
