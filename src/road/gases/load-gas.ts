import type { Bodies, TypedKept } from '../kinds.ts'
import type { Instant } from '../instant.ts'
import { millis } from '../instant.ts'
import type { Step } from '../round.ts'

/** What is known of a load beyond what every method has. */
export interface LoadGas {
  readonly cancelled: Step<Omit<Bodies['cycle-cancelled'], 'load'>> | null
  readonly aeration: Step<Omit<Bodies['aeration-started'], 'load'>> | null
  /** Belongs to the aeration above: a new start forgets the end of the one before. */
  readonly aerated: Step<Omit<Bodies['aeration-ended'], 'load'>> | null
  /** The aeration that was interrupted last, until a new start. None of its time counts. */
  readonly stopped: Step<Omit<Bodies['aeration-stopped'], 'load'>> | null
  readonly residues: readonly Step<Omit<Bodies['residue-tested'], 'load'>>[]
}

export const noGas: LoadGas = { cancelled: null, aeration: null, aerated: null, stopped: null, residues: [] }

export function evolveGas(state: LoadGas, entry: TypedKept): LoadGas {
  const step = <Body>(body: Body): Step<Body> => ({ ...body, at: entry.happenedAt, entry: entry.id, by: entry.by })
  switch (entry.kind) {
    case 'cycle-cancelled': {
      const { load: _, ...cancelled } = entry.body
      return { ...state, cancelled: step(cancelled) }
    }
    case 'aeration-started': {
      const { load: _, ...started } = entry.body
      return { ...state, aeration: step(started), aerated: null, stopped: null }
    }
    case 'aeration-ended': {
      const { load: _, ...ended } = entry.body
      return { ...state, aerated: step(ended) }
    }
    case 'aeration-stopped': {
      // One that had already ended cannot be interrupted: what was ended stays.
      if (state.aerated !== null && state.aeration !== null) return state
      const { load: _, ...stopped } = entry.body
      return { ...state, aeration: null, aerated: null, stopped: step(stopped) }
    }
    case 'residue-tested': {
      const { load: _, ...tested } = entry.body
      return { ...state, residues: [...state.residues, step(tested)] }
    }
    default:
      return state
  }
}

/** Whether a load waits to be aerated anew, because its aeration was interrupted. */
export function mustAerateAgain(gas: LoadGas): boolean {
  return gas.stopped !== null && gas.aeration === null
}

/** Hours between the start and the end of an aeration; up to `until` while it runs. Null when none was started. */
export function aeratedHours(gas: LoadGas, until: Instant): number | null {
  if (gas.aeration === null) return null
  const end = gas.aerated?.at ?? until
  return Math.max(0, (millis(end) - millis(gas.aeration.at)) / 3_600_000)
}
