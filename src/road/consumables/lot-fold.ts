import type { BottleControls } from '../baths/strip-bottle.ts'
import type { Fold } from '../fold.ts'
import { Instant } from '../instant.ts'
import type { Bodies } from '../kinds.ts'
import { lotOfImplant } from '../operating/implant.ts'
import type { Step } from '../round.ts'
import type { SubjectId } from '../subject.ts'
import type { Incubation, LotOf, MakerRange } from './entries.ts'

export interface LotKnown {
  readonly id: SubjectId<'lot'>
  readonly of: LotOf
  readonly name: string
  readonly number: string
  readonly maker: string
  readonly gtin?: string
  readonly madeAt: Instant | null
  readonly openedAt: Instant | null
  readonly expiresAt: Instant | null
  /** Of a bottle: when it is thrown away, whatever its expiry. */
  readonly discardAt: Instant | null
  /** From when it may be used. */
  readonly useFrom: Instant | null
  readonly needsControl: boolean
  /** Of a detergent: how its maker wants it used; null when that was not written down. */
  readonly makerRange: MakerRange | null
  /** Of a biological indicator: how its maker wants it incubated; null when that was not written down. */
  readonly incubation: Incubation | null
  /** Set while it is held for a doubt. */
  readonly held: Step<{ readonly why: string }> | null
  /** The last unprocessed indicator of this lot that was incubated as a control. */
  readonly grownControl: Step<{ readonly result: 'growth' | 'noGrowth' }> | null
  readonly controls: BottleControls | null
  readonly control: Step<Omit<Bodies['lot-quality-controlled'], 'lot'>> | null
  readonly withdrawn: Step<Omit<Bodies['lot-withdrawn'], 'lot'>> | null
}

export const lotFold: Fold<'lot', LotKnown> = {
  subject: 'lot',
  begin: (id) => ({
    id,
    of: 'other',
    name: '',
    number: '',
    maker: '',
    madeAt: null,
    openedAt: null,
    expiresAt: null,
    discardAt: null,
    useFrom: null,
    needsControl: false,
    makerRange: null,
    incubation: null,
    held: null,
    grownControl: null,
    controls: null,
    control: null,
    withdrawn: null,
  }),
  evolve(state, entry) {
    const step = <Body>(body: Body): Step<Body> => ({ ...body, at: entry.happenedAt, entry: entry.id, by: entry.by })
    switch (entry.kind) {
      case 'lot-opened': {
        const { of, name, number, expiresAt, madeAt, discardAt, useFrom, needsControl, makerRange, incubation } =
          entry.body
        return {
          ...state,
          of,
          name,
          number,
          maker: entry.body.maker ?? '',
          ...(entry.body.gtin === undefined ? {} : { gtin: entry.body.gtin }),
          expiresAt,
          useFrom: useFrom ?? null,
          needsControl: needsControl ?? false,
          makerRange: makerRange ?? null,
          incubation: incubation ?? null,
          madeAt: madeAt ?? null,
          discardAt: discardAt ?? null,
          openedAt: entry.happenedAt,
        }
      }
      case 'strip-bottle-opened': {
        const { number, maker = '', expiresAt, discardAt, fullStrength, halfStrength } = entry.body
        const controls = { fullStrength, halfStrength }
        return {
          ...state,
          of: 'strengthStrip',
          number,
          maker,
          expiresAt,
          discardAt,
          controls,
          openedAt: entry.happenedAt,
        }
      }
      case 'bath-poured':
        // A container that nobody took into use by itself is known from the bath that it went into.
        return state.openedAt === null
          ? {
              ...withPrinted(state, entry.body),
              of: 'chemical',
              expiresAt: entry.body.expiresAt,
              openedAt: entry.happenedAt,
            }
          : state
      case 'case-recorded': {
        const code = entry.body.implant?.codes?.find((each) => lotOfImplant(each) === state.id)
        if (code === undefined || state.openedAt !== null) return state
        return {
          ...state,
          of: 'implant',
          name: entry.body.implant?.description.slice(0, 120) ?? '',
          number: code.lot ?? '',
          gtin: code.di,
          openedAt: entry.happenedAt,
          // It may be used until its last day is over.
          expiresAt: code.expiresOn === undefined ? null : Instant.parse(`${code.expiresOn}T23:59:59.999Z`),
        }
      }
      case 'bath-topped-up':
        return state.openedAt === null ? withPrinted(state, entry.body) : state
      case 'lot-quality-controlled': {
        const { lot: _, ...control } = entry.body
        return { ...state, control: step(control) }
      }
      case 'lot-quarantined':
        return { ...state, held: entry.body.held ? step({ why: entry.body.why }) : null }
      case 'biological-read': {
        const { control } = entry.body
        return control?.fromLot === state.id ? { ...state, grownControl: step({ result: control.result }) } : state
      }
      case 'lot-withdrawn': {
        const { lot: _, ...withdrawn } = entry.body
        return { ...state, withdrawn: step(withdrawn) }
      }
      default:
        return state
    }
  },
  standing: lotStanding,
}

/** With the number and maker of its label, where they are said. */
function withPrinted(state: LotKnown, { lotNumber, lotMaker }: Bodies['bath-topped-up']): LotKnown {
  return { ...state, number: lotNumber ?? state.number, maker: lotMaker ?? state.maker }
}

export type LotStanding = 'usable' | 'toBeControlled' | 'held' | 'rejected' | 'withdrawn'

/** Whether a lot was found bad: then what it was used for is in doubt. One that is used up or has expired is not. */
export function lotIsBad(lot: LotKnown): boolean {
  const { controls, control, withdrawn } = lot
  const failedControls =
    controls !== null &&
    (controls.fullStrength.passed < controls.fullStrength.tried ||
      controls.halfStrength.failed < controls.halfStrength.tried)
  return (
    failedControls || control?.result === 'failed' || withdrawn?.because === 'faulty' || withdrawn?.because === 'notice'
  )
}

export function lotStanding(lot: LotKnown): LotStanding {
  if (lotIsBad(lot)) return 'rejected'
  if (lot.withdrawn !== null) return 'withdrawn'
  if (lot.held !== null) return 'held'
  return lotAwaitsControl(lot) ? 'toBeControlled' : 'usable'
}

/** Whether a lot still has to be tried before it is used. A biological indicator is tried by its first control too. */
export function lotAwaitsControl(lot: LotKnown): boolean {
  return lot.needsControl && lot.control === null && lot.controls === null && lot.grownControl === null
}

/** Why a lot may not be used at this moment; undefined when it may. */
export function lotMisfit(lot: LotKnown, at: Instant): string | undefined {
  if (lot.withdrawn !== null && lot.withdrawn.at <= at) return `was taken out of use: ${lot.withdrawn.why}`
  if (lotIsBad(lot)) return 'did not pass its trial'
  if (lot.held !== null && lot.held.at <= at) return `is held: ${lot.held.why}`
  if (lot.useFrom !== null && at < lot.useFrom) return `may be used only from ${lot.useFrom}`
  if (lot.expiresAt !== null && at > lot.expiresAt) return 'has expired'
  if (lot.discardAt !== null && at > lot.discardAt) return 'has been open for too long'
  return undefined
}
