import { z } from 'zod'
import { defineTopic } from '../deciding/topic.ts'
import { recallProposal } from '../sterilising/sources.ts'
import { outcomeMisfit } from './outcome-fits.ts'

const places = ['inStock', 'beforeUse', 'used', 'discarded', 'reprocessed'] as const
type Place = (typeof places)[number]

/** Where the pack is, as the record of a round would say it, and what is right for it. */
const facts: Readonly<
  Record<
    Place,
    { place: 'onShelf' | 'released' | 'opened' | 'rejected' | 'over'; used: boolean; outcome: Outcome; says: string }
  >
> = {
  inStock: {
    place: 'onShelf',
    used: false,
    outcome: 'pulledFromShelf',
    says: 'Pull it from the shelf, quarantine it and reprocess it.',
  },
  beforeUse: {
    place: 'released',
    used: false,
    outcome: 'stoppedBeforeUse',
    says: 'Stop it before it is used and reprocess it.',
  },
  used: {
    place: 'opened',
    used: true,
    outcome: 'patientToBeFollowed',
    says: 'Put the patient on the list of those to be followed; tell the surgeon and infection control.',
  },
  discarded: {
    place: 'rejected',
    used: false,
    outcome: 'discarded',
    says: 'Record that it was discarded, by whom and when.',
  },
  reprocessed: {
    place: 'over',
    used: false,
    outcome: 'alreadyReprocessed',
    says: 'Record the round on which it was reprocessed.',
  },
}
type Outcome = 'pulledFromShelf' | 'stoppedBeforeUse' | 'patientToBeFollowed' | 'discarded' | 'alreadyReprocessed'

export const recalledItemTopic = defineTopic({
  topic: 'recalled-item',
  title: 'What becomes of a pack of a recalled load?',
  decisions: {
    pulledFromShelf: 'pulled from stock',
    stoppedBeforeUse: 'stopped on its way to the patient',
    patientToBeFollowed: 'on the patient list',
    discarded: 'recorded as discarded',
    alreadyReprocessed: 'recorded as reprocessed',
  },
  given: z.strictObject({ place: z.enum(places).describe('Where the pack was found') }),
  sources: [recallProposal],
  example: { given: { place: 'used' }, decision: 'patientToBeFollowed' },
  decide({ place }) {
    const { outcome, says, used, place: standing } = facts[place]
    const pack = { case: used ? ('case:given' as const) : null, duty: 'recall' as const, place: standing }
    const misfit = outcomeMisfit(pack, outcome)
    return {
      decision: outcome,
      findings: [
        {
          rule: 'accounted-fits',
          weight: misfit === undefined ? 'note' : 'stop',
          says: misfit ?? says,
          source: recallProposal,
        },
      ],
    }
  },
})
