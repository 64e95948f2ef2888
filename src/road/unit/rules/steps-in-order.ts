import type { Instant } from '../../instant.ts'
import { packName } from '../../naming.ts'
import type { RoundKnown } from '../../round.ts'
import { defineRule } from '../../rule.ts'
import type { SubjectId } from '../../subject.ts'
import type { TypedSent } from '../../kinds.ts'
import { recordPractice } from '../limits.ts'

/** A step of a round comes after the steps before it. */
export const stepsInOrder = defineRule({
  id: 'steps-in-order',
  says: 'A step of a round is timed after the steps that come before it on the road.',
  on: [
    'soak-started',
    'wash-recorded',
    'inspected',
    'pack-sealed',
    'load-built',
    'load-decided',
    'pack-stored',
    'pack-opened',
  ],
  exceptionAllowed: false,
  check(facts, entry) {
    return roundsOf(entry).flatMap((id) => {
      const round = facts.known(id)
      if (round === undefined) return []
      const later = stepsBefore(round, entry.kind).filter(([, at]) => at !== undefined && at > entry.happenedAt)
      return later.map(([step, at]) => ({
        weight: 'caution' as const,
        says: `${packName(facts, id)}: this is timed before ${step}. Check both times and correct the wrong one.`,
        measured: entry.happenedAt,
        limit: `after ${at}`,
        source: recordPractice,
      }))
    })
  },
})

function roundsOf(entry: TypedSent): readonly SubjectId<'round'>[] {
  switch (entry.kind) {
    case 'soak-started':
    case 'inspected':
    case 'pack-sealed':
    case 'pack-stored':
    case 'pack-opened':
      return [entry.body.round]
    case 'wash-recorded':
    case 'load-built':
      return entry.body.rounds
    case 'load-decided':
      return entry.body.packs.map((pack) => pack.round)
    default:
      return []
  }
}

/** The one step that must lie before, for each kind: the nearest that is always there. */
function stepsBefore(round: RoundKnown, kind: TypedSent['kind']): readonly (readonly [string, Instant | undefined])[] {
  const began = ['the use ended', round.began?.at] as const
  switch (kind) {
    case 'soak-started':
    case 'wash-recorded':
      return [began]
    case 'inspected':
      return [began, ['the wash', round.wash?.at]]
    case 'pack-sealed':
      return [began, ['the inspection', round.inspection?.at]]
    case 'load-built':
      return [['the pack was sealed', round.sealed?.at]]
    case 'load-decided':
    case 'pack-stored':
    case 'pack-opened':
      return [['the load was built', round.load?.at]]
    default:
      return []
  }
}
