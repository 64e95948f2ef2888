import { machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { releaseTable } from '../sources.ts'

/** A load runs with a program that its steriliser has. */
export const loadProgramKnown = defineRule({
  id: 'load-program-known',
  says: 'A load runs with a program that its steriliser has.',
  on: ['load-built'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const machine = facts.known(body.machine)
    if (machine === undefined || machine.programs.includes(body.program)) return []
    return [
      {
        weight: 'caution',
        says: `${machineName(facts, body.machine)} has no program "${body.program}". Check the name before the start.`,
        measured: body.program,
        limit: machine.programs.join(', '),
        source: releaseTable,
      },
    ]
  },
})
