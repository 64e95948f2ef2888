import type { RecallOutcome } from './entries.ts'
import type { RecalledPack } from './recall-extent.ts'

/** Why an outcome does not fit a pack as the record knows it; undefined when it fits. */
export function outcomeMisfit(
  pack: Pick<RecalledPack, 'case' | 'duty' | 'place'>,
  outcome: RecallOutcome,
): string | undefined {
  const used = pack.case !== null
  switch (outcome) {
    case 'patientToBeFollowed':
      return used ? undefined : 'was not opened for any case, so there is no patient to follow'
    case 'pulledFromShelf':
    case 'discarded':
      return used ? 'was opened for a case: its patient is to be followed' : undefined
    case 'alreadyReprocessed':
      if (used) return 'was opened for a case before it was reprocessed: its patient is to be followed'
      return pack.place === 'over' || pack.place === 'rejected' || pack.place === 'damaged'
        ? undefined
        : 'is not on a new round yet'
    case 'stoppedBeforeUse':
      return pack.place === 'over' && !used ? 'is on a new round: record it as reprocessed' : undefined
    case 'clearedByRepeats':
      return pack.duty === 'cleared' ? undefined : 'is not cleared: the repeats are not all good'
  }
}
