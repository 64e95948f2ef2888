import { defineRule } from '../../rule.ts'
import { residueOver } from '../residue.ts'

/** Residues are held against every limit of the contact at once. */
export const residuesWithinLimits = defineRule({
  id: 'residues-within-limits',
  says: 'The residues of gas on a device keep every limit of its contact at once.',
  on: ['residue-tested'],
  exceptionAllowed: false,
  check: (facts, { body }) => residueOver(body.figures, facts.policy),
})
