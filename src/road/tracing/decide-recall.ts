import { z } from 'zod'
import { caseNow } from '../deciding/case-facts.ts'
import { ChangedLimits, casePolicy } from '../deciding/case-policy.ts'
import { defineTopic } from '../deciding/topic.ts'
import type { Finding } from '../finding.ts'
import { chamberMethods, machineTypeOf } from '../sterilising/method-of.ts'
import { cdcPositiveIndicator, nonSteamPositive, recallProposal } from '../sterilising/sources.ts'
import { choicesOf } from './recall-choices.ts'
import { recallCaseLoads, RecallCaseLoad } from './recall-case.ts'
import { type RecallWindow, recallWindow } from './recall-window.ts'

export const recallTopic = defineTopic({
  topic: 'recall',
  title: 'Which loads does a failure of a steriliser recall?',
  decisions: {
    recall: 'every load named is recalled',
    recallImplants: 'the implants of the failed load are recalled at once, the loads named are held for the repeats',
    hold: 'the loads named are held until the repeats are read; nothing is recalled yet',
    noRecall: 'the repeats are good: nothing is recalled, the steriliser goes back into service',
    recallImplantsOnly: 'the repeats are good: only the implants of the failed load stay recalled',
  },
  given: z.strictObject({
    method: z.enum(chamberMethods),
    loads: z.array(RecallCaseLoad).min(1).describe('The loads of this steriliser, the oldest first'),
    failed: z.string().describe('The name of the load that failed, or that was run with the fault'),
    defectProven: z.boolean().default(false).describe('A defect of the machine or of its use is proven'),
    since: z
      .string()
      .optional()
      .describe('A fault with a known beginning: the first load run with it, as after the last good calibration'),
    limits: ChangedLimits,
  }),
  sources: [cdcPositiveIndicator, nonSteamPositive, recallProposal],
  example: {
    given: {
      method: 'hydrogenPeroxide',
      loads: [
        { name: '11', biological: 'negative' },
        { name: '12', biological: 'positive' },
        { name: '13' },
        { name: '14', biological: 'negative' },
      ],
      failed: '12',
    },
    decision: 'recall',
  },
  decide(given) {
    const choices = choicesOf(casePolicy(given.limits), { type: machineTypeOf[given.method] })
    const named = recallCaseLoads(given.loads, choices.incubation.hours)
    const at = given.loads.findIndex((load) => load.name === given.failed)
    const failed = named[at]
    if (failed === undefined) return noSuchLoad('failed', given.failed)
    const from = given.since === undefined ? undefined : given.loads.findIndex((load) => load.name === given.since)
    if (from === -1) return noSuchLoad('since', given.since ?? '')
    const begun = from === undefined ? undefined : named[Math.min(from, at)]
    const opening = {
      defectProven: given.defectProven,
      since: begun?.builtAt ?? null,
      closedAt: null,
      repeatsUntil: caseNow,
    }
    const window = recallWindow(failed, named, opening, choices)
    const names = window.loads
      .filter((load) => load.id === failed.id || load.purpose === 'goods')
      .map((load) => given.loads[named.findIndex((each) => each.id === load.id)]?.name ?? '')
    const implant = given.loads[at]?.implant === true
    return {
      decision: decisionOf(window, implant),
      findings: findingsOf(window, names, { implant, since: given.since }),
    }
  },
})

function noSuchLoad(field: string, name: string) {
  const finding: Finding = {
    rule: 'recall-extent',
    weight: 'notEvaluable',
    says: `No load "${name}" is among the loads given as "${field}". Hold everything of this steriliser.`,
    source: recallProposal,
  }
  return { decision: 'hold', findings: [finding] }
}

function decisionOf({ verdict }: RecallWindow, implant: boolean): string {
  switch (verdict) {
    case 'everything':
      return 'recall'
    case 'repeatsPending':
      return implant ? 'recallImplants' : 'hold'
    case 'clearedByRepeats':
      return implant ? 'recallImplantsOnly' : 'noRecall'
  }
}

function findingsOf(
  window: RecallWindow,
  names: readonly string[],
  { implant, since }: { readonly implant: boolean; readonly since: string | undefined },
): readonly Finding[] {
  const cleared = window.verdict === 'clearedByRepeats'
  const all: Finding = {
    rule: 'recall-extent',
    weight: cleared ? 'note' : 'stop',
    says: `${window.because} ${cleared ? 'Cleared' : window.verdict === 'everything' ? 'Recall' : 'Hold'}: ${names.join(', ')}.`,
    measured: names.join(', '),
    source: window.source,
  }
  const implants: Finding = {
    rule: 'recall-implants',
    weight: 'stop',
    says: 'The implants of the failed load are recalled at once, whatever the repeats show.',
    source: cdcPositiveIndicator,
  }
  const unbounded: Finding = {
    rule: 'recall-since-qualification',
    weight: 'caution',
    says: 'No good result is on record before the failure: go back to the last qualification of the steriliser.',
    source: recallProposal,
  }
  const bounded = window.lastGood !== null || since !== undefined || cleared
  return [all, ...(implant && window.verdict !== 'everything' ? [implants] : []), ...(bounded ? [] : [unbounded])]
}
