import type { Bodies } from '#road/kinds.ts'
import { type OwnedSet, type SetId, type SetTypeKey, ownedSets } from './sets.ts'

export type RoundId = Bodies['use-ended']['round']
export type LoadId = Bodies['load-built']['load']

/** One set and the round that it is on. */
export interface SetState {
  readonly set: OwnedSet
  round: RoundId | null
  rounds: number
  /** When it stands on the shelf, ready to be opened; null while it is on its way. */
  readyAt: number | null
  /** The last load that its present round went through. */
  load: LoadId | null
}

/** All sets of the unit and where they are. */
export interface Stock {
  readonly sets: readonly SetState[]
  readonly ready: (type: SetTypeKey, by: number) => SetState[]
  readonly of: (id: SetId) => SetState | undefined
}

export function stockOf(): Stock {
  const sets = ownedSets.map((set): SetState => ({ set, round: null, rounds: 0, readyAt: null, load: null }))
  const byId = new Map(sets.map((state) => [state.set.id, state]))
  return {
    sets,
    of: (id) => byId.get(id),
    /** First in, first out. */
    ready: (type, by) =>
      sets
        .filter((state) => state.set.type === type && state.readyAt !== null && state.readyAt <= by)
        .sort((a, b) => (a.readyAt ?? 0) - (b.readyAt ?? 0)),
  }
}

/** Sends a set on its next round and gives the round before it. */
export function nextRound(state: SetState): { readonly round: RoundId; readonly previous: RoundId | null } {
  const previous = state.round
  state.rounds += 1
  const round: RoundId = `round:${state.set.key}-r${String(state.rounds).padStart(3, '0')}`
  state.round = round
  state.readyAt = null
  state.load = null
  return { round, previous }
}
