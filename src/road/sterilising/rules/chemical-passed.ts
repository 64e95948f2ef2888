import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { releaseTable } from '../sources.ts'

/** A chemical indicator that did not turn keeps its pack, or its load, back. */
export const chemicalPassed = defineRule({
  id: 'chemical-passed',
  says: 'A chemical indicator that failed or is missing keeps its pack back; one from inside keeps the whole load back.',
  on: ['chemical-read'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (body.result === 'passed') return []
    const what = body.result === 'failed' ? 'did not turn' : 'is missing'
    const packs = body.rounds?.map((id) => packName(facts, id)).join(', ') ?? 'all packs of the load'
    return [{ weight: 'stop', says: sentence(body.where, what, packs), source: releaseTable }]
  },
})

function sentence(where: 'outsidePack' | 'insidePack' | 'challengeDevice', what: string, packs: string): string {
  switch (where) {
    case 'outsidePack':
      return `The outside indicator ${what}: ${packs}. Reject it; it may never have been in a cycle.`
    case 'insidePack':
      return `The inside indicator ${what}: ${packs}. Do not use it, and keep the other packs of this load back.`
    case 'challengeDevice':
      return `The indicator of the challenge device ${what}. Keep the whole load back.`
  }
}
