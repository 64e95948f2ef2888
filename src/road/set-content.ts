import type { DeviceKnown, SetKnown } from './catalogue/fold.ts'
import type { Facts } from './facts.ts'
import type { SubjectId } from './subject.ts'

/** The set of a round, as far as it is known. */
export function setOf(facts: Facts, round: SubjectId<'round'>): SetKnown | undefined {
  const set = facts.known(round)?.set ?? null
  return set === null ? undefined : facts.known(set)
}

/** The devices on the count sheet of a round's set. */
export function devicesOf(facts: Facts, round: SubjectId<'round'>): readonly DeviceKnown[] {
  const sheet = setOf(facts, round)?.countSheet ?? []
  return sheet.flatMap((line) => facts.known(line.device) ?? [])
}
