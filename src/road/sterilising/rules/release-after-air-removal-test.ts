import type { RoundKnown } from '../../round.ts'
import { defineRule } from '../../rule.ts'
import type { SubjectId } from '../../subject.ts'
import { airRemovalOfDay } from '../air-removal-of-day.ts'
import { releasedPacks } from '../released-packs.ts'
import { cdcMonitoring } from '../sources.ts'

/** A pack is released only if its steriliser passed the air-removal test of that day. */
export const releaseAfterAirRemovalTest = defineRule({
  id: 'release-after-air-removal-test',
  says: 'A pack from a steriliser with dynamic air removal is released only if the air-removal test of the day of its cycle was passed.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    const machine = load === undefined || load.machine === null ? undefined : facts.known(load.machine)
    const start = load?.cycle?.startedAt ?? load?.builtAt ?? null
    const packs = releasedPacks(facts, body)
    if (machine === undefined || start === null || packs.length === 0) return []
    const state = airRemovalOfDay(machine, start, facts.dayOf)
    if (state === 'passed' || state === 'notRequired') return []
    // It was asked when these packs were released. That the tests are no longer at hand takes nothing away from a pack on the
    // shelf; a pack that was quarantined, or not decided at all, was never held against them.
    if (state === 'notRemembered' && packs.every(({ round }) => wasReleased(round, body.load))) return []
    return [
      {
        weight: 'stop',
        says:
          state === 'failed'
            ? 'The air-removal test failed on the day of this cycle. Quarantine the load and run it again when the steriliser is proven.'
            : state === 'notRemembered'
              ? 'The day of this cycle lies before the air-removal tests that are at hand. Quarantine the load and run it again.'
              : 'No air-removal test is recorded before this cycle on its day. Quarantine the load.',
        measured: facts.dayOf(start),
        source: cdcMonitoring,
      },
    ]
  },
})

function wasReleased(round: RoundKnown | undefined, load: SubjectId<'load'>): boolean {
  const decision = round?.decision ?? null
  return decision !== null && decision.load === load && decision.outcome === 'released'
}
