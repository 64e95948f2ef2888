import { z } from 'zod'
import { caseEntry, caseFacts, caseKnown, caseStep, hoursAgo } from '../deciding/case-facts.ts'
import { ChangedLimits, casePolicy } from '../deciding/case-policy.ts'
import { defineTopic } from '../deciding/topic.ts'
import { rules } from '../rules.ts'
import { biologicalSchedule } from './biological-schedule.ts'
import { chamberMethods, machineTypeOf } from './method-of.ts'
import { biologicalTestDue } from './rules/biological-test-due.ts'
import { loadImplantWithBiological } from './rules/load-implant-with-biological.ts'
import { loadWithBiological } from './rules/load-with-biological.ts'
import { cdcMonitoring, gasEachLoad, peroxideDaily } from './sources.ts'

const asked: ReadonlySet<string> = new Set([biologicalTestDue.id, loadWithBiological.id, loadImplantWithBiological.id])

export const biologicalDueTopic = defineTopic({
  topic: 'biological-due',
  title: 'Does the next load of a steriliser need a biological indicator?',
  decisions: {
    notDue: 'not by schedule',
    overdue: 'the last valid result is older than the schedule allows: put one in',
    everyLoad: 'the method has one in every load',
    implantLoad: 'a load with an implant carries one',
  },
  given: z.strictObject({
    method: z.enum(chamberMethods),
    daysSinceLast: z
      .number()
      .nonnegative()
      .nullable()
      .describe('Days since the last valid result was run; null: none found'),
    implant: z.boolean().default(false).describe('The load holds an implant'),
    limits: ChangedLimits,
  }),
  sources: [cdcMonitoring, gasEachLoad, peroxideDaily],
  example: { given: { method: 'steam', daysSinceLast: 8 }, decision: 'overdue' },
  decide(given) {
    const policy = casePolicy(given.limits)
    const machine = caseKnown('machine', 'machine:case', { name: 'The steriliser', type: machineTypeOf[given.method] })
    const pack = caseKnown('round', 'round:case', {
      sealed: caseStep(hoursAgo(1), {
        wrap: 'wrap' as const,
        insideIndicator: null,
        outsideIndicator: null,
        counted: [],
        implant: given.implant,
      }),
    })
    const last = given.daysSinceLast === null ? null : hoursAgo(given.daysSinceLast * 24)
    const entry = caseEntry('load-built', {
      load: 'load:case',
      machine: 'machine:case',
      program: 'case',
      purpose: 'goods',
      rounds: ['round:case'],
    })
    const facts = caseFacts(policy, [machine, pack], { lastBiological: () => last })
    const findings = rules.filter((rule) => asked.has(rule.id)).flatMap((rule) => rule.check(facts, entry))
    if (biologicalSchedule(given.method, policy).rhythm === 'each load') return { decision: 'everyLoad', findings }
    if (findings.some((finding) => finding.rule === loadImplantWithBiological.id)) {
      return { decision: 'implantLoad', findings }
    }
    return { decision: findings.length === 0 ? 'notDue' : 'overdue', findings }
  },
})
