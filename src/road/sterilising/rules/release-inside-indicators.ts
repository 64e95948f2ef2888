import { defineRule } from '../../rule.ts'
import { releasedPacks } from '../released-packs.ts'
import { releaseTable } from '../sources.ts'

/** A load is held when an indicator inside one of its packs failed. */
export const releaseInsideIndicators = defineRule({
  id: 'release-inside-indicators',
  says: 'No pack of a load is released once an indicator inside one of its packs has failed.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    if (load === undefined || releasedPacks(facts, body).length === 0) return []
    const read = load.chemical.some((each) => each.where === 'insidePack' && each.result !== 'passed')
    const seen = load.rounds.some((id) => {
      const opened = facts.known(id)?.opened
      return opened !== undefined && opened !== null && opened.insideIndicator !== 'changed'
    })
    if (!read && !seen) return []
    return [
      {
        weight: 'stop',
        says: 'An indicator inside a pack of this load failed or was missing. Reject that pack and quarantine the others.',
        source: releaseTable,
      },
    ]
  },
})
