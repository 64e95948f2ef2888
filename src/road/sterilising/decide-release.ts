import { z } from 'zod'
import { Celsius } from '#units/quantities.ts'
import { caseEntry, caseFacts } from '../deciding/case-facts.ts'
import { ChangedLimits, casePolicy } from '../deciding/case-policy.ts'
import { defineTopic } from '../deciding/topic.ts'
import { type Finding, stands } from '../finding.ts'
import { judge } from '../judge.ts'
import { rules } from '../rules.ts'
import { chamberMethods } from './method-of.ts'
import { type ReleaseCase, releaseCaseKnown, earlyForm } from './release-case.ts'
import { cdcPositiveIndicator, gasEachLoad, parametricRelease, releaseTable, st79Release } from './sources.ts'

const Given: z.ZodType<ReleaseCase> = z.strictObject({
  method: z.enum(chamberMethods).describe('The method of the steriliser'),
  airRemoval: z
    .enum(['dynamic', 'gravity', 'none'])
    .default('none')
    .describe('How a steam steriliser gets the air out; only `dynamic` needs the air-removal test'),
  airRemovalTest: z
    .enum(['passed', 'failed', 'notDone'])
    .default('notDone')
    .describe('The air-removal test of the day'),
  machineInService: z.boolean().default(true),
  independentRecord: z.boolean().default(false).describe('Every variable is recorded by a sensor of its own'),
  implant: z.boolean().default(false).describe('The pack holds an implant'),
  physical: z.enum(['met', 'notMet', 'notEvaluable', 'missing']).describe('The record of the cycle'),
  outside: z.enum(['passed', 'failed', 'missing', 'notRead']).default('passed').describe('The outside indicator'),
  inside: z
    .enum(['notSeen', 'passed', 'failed', 'missing'])
    .default('notSeen')
    .describe('An indicator inside a pack of this load, where one was seen'),
  challenge: z
    .enum(['none', 'passed', 'failed', 'notRead'])
    .default('none')
    .describe('The type 5 indicator of the challenge device'),
  biological: z
    .enum(['none', 'pending', 'negative', 'positive'])
    .describe('The biological indicator of this very load: none in it, not read yet, no growth, growth'),
  control: z
    .enum(['positive', 'negative', 'otherLot', 'none'])
    .default('positive')
    .describe('The control of the same lot that was not sterilised: it must grow'),
  incubatedHours: z.number().positive().optional().describe('Hours incubated; left out: as long as is needed'),
  makersHours: z
    .number()
    .positive()
    .optional()
    .describe('Hours after which the maker of a rapid indicator has it read; left out: those of the method'),
  pack: z.enum(['intact', 'wet', 'torn', 'dropped', 'sealBroken']).default('intact'),
  pastDate: z.boolean().default(false).describe('The pack has a date and it is past'),
  recalled: z.boolean().default(false).describe('The load lies in an open recall'),
  early: z
    .strictObject({
      formComplete: z
        .boolean()
        .describe('The implant, the emergency and what would have prevented it are written down'),
      allowedBy: z.enum(['surgeonInCharge', 'manager', 'other']),
    })
    .optional()
    .describe('An early release of an implant in an emergency'),
  wrapMaterial: z
    .enum(['cellulose', 'linen', 'synthetic', 'metalContainer', 'plasticContainer'])
    .default('synthetic')
    .describe('What the wrap is made of: some gases are soaked up by cellulose and linen'),
  cancelled: z.boolean().default(false).describe('The cycle was cancelled'),
  aeration: z
    .strictObject({
      temperatureC: Celsius.describe('The coldest that it was throughout'),
      hours: z.number().nonnegative(),
      ended: z.boolean().default(true),
      makerHours: z.number().positive().optional().describe('The longest that a maker of a device in the load asks'),
    })
    .optional()
    .describe('The aeration of an ethylene oxide load; left out: none is recorded'),
  limits: ChangedLimits,
})

/** Rules whose stop means that the pack is not sterile; every other stop holds the load until something is settled. */
const rejecting: ReadonlySet<string> = new Set([
  'release-outside-indicators',
  'release-intact-packs',
  'release-in-date',
  'release-fresh-packs',
  'release-from-working-machine',
  'release-not-cancelled',
  'release-packs-fit-method',
])

export const releaseTopic = defineTopic({
  topic: 'release',
  title: 'May this pack of a load be released?',
  decisions: {
    release: 'released',
    earlyRelease: 'an implant released in an emergency before its biological result; add the result when it is read',
    hold: 'quarantined: something is missing, pending or failed that may still be settled',
    holdAndRecall: 'quarantined, and the recall of the failed load is followed',
    reject: 'not sterile: reprocessed',
  },
  given: Given,
  sources: [releaseTable, st79Release, cdcPositiveIndicator, gasEachLoad, parametricRelease],
  example: {
    given: {
      method: 'steam',
      airRemoval: 'dynamic',
      airRemovalTest: 'passed',
      implant: true,
      physical: 'met',
      biological: 'pending',
      challenge: 'passed',
    },
    decision: 'hold',
  },
  decide(given) {
    const { known, body, exception } = releaseCaseKnown(given)
    const facts = caseFacts(casePolicy(given.limits), known, {
      recallsOfLoad: () => (given.recalled ? [{ recall: 'recall:other', duty: 'hold' }] : []),
    })
    const { findings, refused } = judge(rules, facts, caseEntry('load-decided', body, exception))
    const against = findings.filter(stands).filter((finding) => !exception?.rules.includes(finding.rule))
    return { decision: decisionOf(given, against, refused), findings }
  },
})

function decisionOf(given: ReleaseCase, against: readonly Finding[], refused: boolean): string {
  if (!refused) return earlyForm(given) === undefined || !given.implant ? 'release' : 'earlyRelease'
  if (against.some((finding) => finding.rule === 'release-no-growth')) return 'holdAndRecall'
  const notSterile = against.some(
    ({ rule, weight }) =>
      weight === 'stop' && (rejecting.has(rule) || (rule === 'release-cycle-met' && given.physical === 'notMet')),
  )
  return notSterile ? 'reject' : 'hold'
}
