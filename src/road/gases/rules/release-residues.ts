import { defineRule } from '../../rule.ts'
import { releasedPacks } from '../../sterilising/released-packs.ts'
import { residueOver } from '../residue.ts'

/** A load whose last residue test was over a limit is held. */
export const releaseResidues = defineRule({
  id: 'release-residues',
  says: 'A pack is not released while the last residue test of its load is over a limit.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const last = facts.known(body.load)?.gas?.residues.at(-1)
    if (last === undefined || releasedPacks(facts, body).length === 0) return []
    return residueOver(last.figures, facts.policy).filter((each) => each.weight === 'stop')
  },
})
