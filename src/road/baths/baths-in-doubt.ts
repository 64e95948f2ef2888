import type { Instant } from '../instant.ts'
import type { Look } from '../look.ts'
import { type Doubt, packsInDoubt } from '../storing/packs-in-doubt.ts'
import type { SubjectId } from '../subject.ts'
import type { BathKnown } from './bath-fold.ts'
import type { ImmersionKnown } from './immersion-fold.ts'
import { treatedStillProven } from './rules/treated-still-proven.ts'

/** The baths among these that do not prove what was treated in them, with what is to be said of each set. */
export async function bathsInDoubt(
  look: Look,
  baths: readonly BathKnown[],
  now: Instant,
): Promise<ReadonlyMap<SubjectId<'bath'>, readonly Doubt[]>> {
  const immersions = await look.known(baths.flatMap((bath) => bath.uses.map((use) => use.immersion)))
  const doubts = await immersionsInDoubt(look, [...immersions.values()], now)
  return new Map(
    baths.flatMap((bath) => {
      const of = bath.uses.flatMap((use) => doubts.get(use.immersion) ?? [])
      return of.length === 0 ? [] : [[bath.id, of] as const]
    }),
  )
}

/** The same for immersions: of each, what is to be said of the sets that were last treated in it. */
export async function immersionsInDoubt(
  look: Look,
  immersions: readonly ImmersionKnown[],
  now: Instant,
): Promise<ReadonlyMap<SubjectId<'immersion'>, readonly Doubt[]>> {
  const rounds = await look.known(immersions.flatMap((immersion) => immersion.rounds))
  const treated = [...rounds.values()].filter((round) => round.immersion !== null)
  const doubts = await packsInDoubt(look, treated, now)
  return new Map(
    immersions.flatMap((immersion) => {
      const of = treated
        .filter((round) => round.immersion?.id === immersion.id)
        .flatMap((round) => doubts.get(round.id) ?? [])
        .filter((doubt) => doubt.rule === treatedStillProven.id)
      return of.length === 0 ? [] : [[immersion.id, of] as const]
    }),
  )
}
