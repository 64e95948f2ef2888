import { z } from 'zod'
import { caseEntry, caseFacts, caseKnown, hoursAgo } from '../deciding/case-facts.ts'
import { ChangedLimits, casePolicy } from '../deciding/case-policy.ts'
import { defineTopic } from '../deciding/topic.ts'
import type { Finding } from '../finding.ts'
import { judge } from '../judge.ts'
import { rules } from '../rules.ts'
import { loanGuidance } from './sources.ts'

const Hours = z.number().min(0).max(8760)
const countSheet = [{ device: 'device:case' as const, count: 1 }]

export const loanTopic = defineTopic({
  topic: 'loan',
  title: 'What to do with a loan set that arrives',
  decisions: {
    reprocess: 'It came in time. Take it as contaminated, whatever it is declared: count, wash, inspect, sterilise.',
    late: 'It came too late for its case: put the case off or use another set.',
    split: 'It is too heavy: split it before it is packed.',
    hold: 'Something that decides is missing: the instructions for use, the mass, or when it is needed.',
  },
  given: z.strictObject({
    hoursBeforeCase: Hours.optional().describe('From arrival to the case'),
    known: z.boolean().default(false).describe('The set was here before, with the same contents'),
    declaredSterile: z.boolean().default(false).describe('Its lender calls it sterile'),
    instructionsOnFile: z.boolean().optional(),
    massKg: z.number().positive().max(50).optional(),
    limits: ChangedLimits,
  }),
  sources: [loanGuidance],
  example: {
    given: { hoursBeforeCase: 36, known: true, instructionsOnFile: true, massKg: 6 },
    decision: 'late',
  },
  decide({ hoursBeforeCase, known, declaredSterile, instructionsOnFile, massKg, limits }) {
    const body = {
      set: 'set:case' as const,
      name: 'The set',
      lender: 'Lender',
      countSheet,
      known,
      neededAt: hoursAgo(-(hoursBeforeCase ?? 8760)),
      dueBack: hoursAgo(-9000),
      declaredSterile,
      instructionsOnFile: instructionsOnFile ?? false,
      ...(massKg === undefined ? {} : { massKg }),
    }
    const facts = caseFacts(casePolicy(limits), [])
    const { findings } = judge(rules, facts, caseEntry('loan-arrived', body))
    const unstated: readonly Finding[] =
      hoursBeforeCase === undefined
        ? [
            {
              rule: 'loan-arrives-in-time',
              weight: 'notEvaluable',
              says: 'When it is needed is not stated.',
              source: loanGuidance,
            },
          ]
        : []
    const all = [...findings, ...unstated]
    return { decision: wordOf(all), findings: all }
  },
})

/** The heaviest first: what came too late need not be split, and what is not stated holds the rest. */
function wordOf(findings: readonly Finding[]): string {
  const stopped = (rule: string) => findings.some((each) => each.rule === rule && each.weight === 'stop')
  if (stopped('loan-arrives-in-time')) return 'late'
  if (stopped('loan-with-instructions')) return 'split'
  return findings.some((each) => each.weight === 'notEvaluable') ? 'hold' : 'reprocess'
}

export const loanReturnTopic = defineTopic({
  topic: 'loan-return',
  title: 'Whether a loan set may go back to its lender',
  decisions: {
    sendBack: 'It is decontaminated and whole: it goes back.',
    decontaminate: 'It is not decontaminated: clean it first.',
    search: 'Something is missing: look for it, and tell the lender.',
  },
  given: z.strictObject({ decontaminated: z.boolean(), complete: z.boolean() }),
  sources: [loanGuidance],
  example: { given: { decontaminated: false, complete: true }, decision: 'decontaminate' },
  decide(given) {
    const facts = caseFacts(casePolicy({}), [caseKnown('set', 'set:case', { name: 'The set' })])
    const { findings } = judge(rules, facts, caseEntry('loan-returned', { set: 'set:case', ...given }))
    if (!given.decontaminated) return { decision: 'decontaminate', findings }
    return { decision: given.complete ? 'sendBack' : 'search', findings }
  },
})
