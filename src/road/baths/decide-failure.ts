import { z } from 'zod'
import { defineTopic } from '../deciding/topic.ts'
import { instant } from '../instant.ts'
import { type BathEvent, usesInDoubt } from './in-doubt.ts'
import { bathProposal, failedStripPractice } from './sources.ts'

const Happening = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('strip'), result: z.enum(['pass', 'fail']) }),
  z.strictObject({ kind: z.literal('toppedUp') }),
  z.strictObject({ kind: z.literal('use'), name: z.string().min(1).describe('cycle, set or instrument') }),
])

/** A strip speaks for the first use after it and for no other. */
function eventsOf(history: readonly z.infer<typeof Happening>[]): readonly BathEvent<string>[] {
  let fresh = false
  return history.map((each, index) => {
    const at = instant(index * 60_000)
    switch (each.kind) {
      case 'strip':
        fresh = each.result === 'pass'
        return { kind: 'strip', at, passed: fresh }
      case 'toppedUp':
        fresh = false
        return { kind: 'toppedUp', at }
      case 'use': {
        const ownStripPassed = fresh
        fresh = false
        return { kind: 'use', at, use: each.name, ownStripPassed }
      }
    }
  })
}

export const bathFailureTopic = defineTopic({
  topic: 'bath-failure',
  title: 'A strip has failed: what becomes of the bath and of what was in it?',
  decisions: {
    goOn: 'the last strip passed',
    discard: 'discard the whole bath; nothing before is recalled',
    discardAndRecall: 'discard the whole bath and recall what no passed strip speaks for',
  },
  given: z.strictObject({
    history: z.array(Happening).min(1).describe('what happened to the bath, the oldest first'),
  }),
  sources: [failedStripPractice, bathProposal],
  example: {
    given: {
      history: [
        { kind: 'strip', result: 'pass' },
        { kind: 'use', name: 'cycle 7' },
        { kind: 'strip', result: 'fail' },
      ],
    },
    decision: 'discard',
  },
  decide({ history }) {
    const last = history.findLast((each) => each.kind === 'strip')
    if (last?.result !== 'fail') return { decision: 'goOn', findings: [] }
    const inDoubt = usesInDoubt(eventsOf(history))
    const discard = {
      rule: 'strip-passed',
      weight: 'stop' as const,
      says: 'The strip failed. Discard the whole bath; do not top it up and do not use it longer.',
      source: failedStripPractice,
    }
    if (inDoubt.length === 0) return { decision: 'discard', findings: [discard] }
    const recall = {
      rule: 'strip-passed',
      weight: 'stop' as const,
      says: `No passed strip speaks for: ${inDoubt.join(', ')}. Find each and treat it again; if it was used, tell infection control.`,
      source: bathProposal,
    }
    return { decision: 'discardAndRecall', findings: [discard, recall] }
  },
})
