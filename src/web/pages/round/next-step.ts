import type { RoundKnown } from '#road/round.ts'
import { roundStanding, takenBackFromBath } from '#road/round.ts'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'

export interface NextStep {
  readonly says: string
  readonly action: string
  readonly to: string
}

/** What is to be done with a round as it stands, and where. */
export function nextStepOf(round: RoundKnown): NextStep {
  if (takenBackFromBath(round)) return { ...words.round.takenBackFromBath, to: paths.washRoomFor(round.id) }
  const standing = roundStanding(round)
  return { ...words.round.next[standing], to: whereTo(round, standing) }
}

function whereTo(round: RoundKnown, standing: ReturnType<typeof roundStanding>): string {
  switch (standing) {
    case 'used':
    case 'soaking':
    case 'washed':
    case 'sentBack':
    case 'rejected':
    case 'damaged':
      return paths.washRoomFor(round.id)
    case 'inspected':
      return paths.packingOf(round.id)
    case 'inBath':
    case 'bathReady':
      return paths.baths
    case 'sealed':
      return paths.machines
    case 'inLoad':
    case 'quarantined':
      return round.load === null ? paths.machines : paths.load(round.load.id)
    case 'released':
      return paths.shelf
    case 'onShelf':
      return paths.theatre
    case 'opened':
      return round.opened === null ? paths.theatre : paths.oneCase(round.opened.case)
    case 'over':
      return round.next === null ? paths.round : paths.oneRound(round.next)
  }
}
