import { z } from 'zod'
import { Celsius } from '#units/quantities.ts'
import { caseEntry, caseFacts, caseKnown, caseStep, hoursAgo } from '../deciding/case-facts.ts'
import { ChangedLimits, casePolicy } from '../deciding/case-policy.ts'
import { defineTopic } from '../deciding/topic.ts'
import { judge } from '../judge.ts'
import type { Bodies } from '../kinds.ts'
import { rules } from '../rules.ts'
import type { SubjectId } from '../subject.ts'
import { biologicalIndicators } from './biological-indicators.ts'
import { chamberMethods, machineTypeOf } from './method-of.ts'
import { biologicalIncubated } from './rules/biological-incubated.ts'
import { biologicalByMethod, cdcPositiveIndicator, mmwrControl, nonSteamPositive } from './sources.ts'

const lot = 'b1'
const caseLot: SubjectId<'lot'> = 'lot:case'

export const biologicalResultTopic = defineTopic({
  topic: 'biological-result',
  title: 'What does this reading of a biological indicator mean?',
  decisions: {
    pass: 'no growth, beside a control of the same lot that grew',
    fail: 'growth: the steriliser stops, a recall opens',
    failNotifySurgeon:
      'growth after an implant was released early: tell the surgeon and infection control, trace the patient',
    invalid: 'nothing is proven: repeat the test; an implant waits',
    readAgain: 'read too early or not warm enough: incubate on or repeat',
  },
  given: z.strictObject({
    method: z.enum(chamberMethods),
    result: z.enum(['growth', 'noGrowth']),
    control: z
      .enum(['growth', 'noGrowth', 'otherLot', 'none'])
      .describe('The indicator that was not sterilised and was incubated beside it'),
    incubatedHours: z.number().positive().optional().describe('Hours incubated; left out: as long as the method needs'),
    makersHours: z
      .number()
      .positive()
      .optional()
      .describe('Hours after which the maker of a rapid indicator has it read; left out: those of the method'),
    incubatorC: Celsius.optional().describe('Temperature of the incubator'),
    implantReleasedEarly: z.boolean().default(false).describe('An implant of the load was released before this result'),
    limits: ChangedLimits,
  }),
  sources: [biologicalByMethod, mmwrControl, cdcPositiveIndicator, nonSteamPositive],
  example: { given: { method: 'steam', result: 'growth', control: 'noGrowth' }, decision: 'fail' },
  decide(given) {
    const policy = casePolicy(given.limits)
    const indicator = biologicalIndicators[given.method]
    const body: Bodies['biological-read'] = {
      load: 'load:case',
      lot,
      result: given.result,
      control: controlOf(given.control, given.makersHours === undefined ? undefined : caseLot),
      incubatedHours: given.incubatedHours ?? given.makersHours ?? policy.limit(indicator.hours).value,
      ...(given.makersHours === undefined ? {} : { makersHours: given.makersHours, fromLot: caseLot }),
      ...(given.incubatorC === undefined ? {} : { incubatorC: given.incubatorC }),
    }
    const early = { implant: 'given', emergency: 'given with the case', wouldHavePrevented: 'given with the case' }
    const load = caseKnown('load', 'load:case', {
      machine: 'machine:case',
      decision: given.implantReleasedEarly
        ? caseStep(hoursAgo(24), {
            packs: [{ round: 'round:case', outcome: 'released' as const }],
            earlyImplant: early,
          })
        : null,
    })
    const machine = caseKnown('machine', 'machine:case', { type: machineTypeOf[given.method] })
    const lots =
      given.makersHours === undefined
        ? []
        : [caseKnown('lot', caseLot, { number: lot, incubation: { hours: given.makersHours } })]
    const { findings } = judge(rules, caseFacts(policy, [load, machine, ...lots]), caseEntry('biological-read', body))
    if (given.result === 'growth')
      return { decision: given.implantReleasedEarly ? 'failNotifySurgeon' : 'fail', findings }
    if (findings.some(({ rule, weight }) => weight === 'notEvaluable' && rule !== biologicalIncubated.id))
      return { decision: 'invalid', findings }
    const notLongOrWarm = findings.some((finding) => finding.rule === biologicalIncubated.id)
    return { decision: notLongOrWarm ? 'readAgain' : 'pass', findings }
  },
})

function controlOf(
  control: 'growth' | 'noGrowth' | 'otherLot' | 'none',
  fromLot: SubjectId<'lot'> | undefined,
): Bodies['biological-read']['control'] {
  switch (control) {
    case 'none':
      return null
    case 'otherLot':
      return { lot: 'b2', result: 'growth' }
    case 'growth':
    case 'noGrowth':
      return { lot, result: control, ...(fromLot === undefined ? {} : { fromLot }) }
  }
}
