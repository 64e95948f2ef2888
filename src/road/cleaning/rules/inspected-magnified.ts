import { defineRule } from '../../rule.ts'
import { st79Cleaning } from '../limits.ts'

/** An inspection is made under magnification. */
export const inspectedMagnified = defineRule({
  id: 'inspected-magnified',
  says: 'Instruments are inspected under magnification and good light.',
  on: ['inspected'],
  exceptionAllowed: false,
  check(_facts, { body }) {
    if (body.magnified) return []
    return [
      {
        weight: 'caution',
        says: 'Looked at without magnification: soil in joints and cracks is missed. Look again with the lens.',
        source: st79Cleaning,
      },
    ]
  },
})
