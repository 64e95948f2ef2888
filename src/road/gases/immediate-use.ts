import { atLeast } from '#workings/physics/at-most.ts'
import { figure } from '../naming.ts'
import type { Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import { makersInstructions } from '../packing/limits.ts'
import { type ImmediateAir, type ImmediateItem, immediateUseTableRows } from './immediate-use-table.ts'
import { immediateUseMeaning, immediateUseRules, immediateUseTable } from './sources.ts'

export interface ImmediateUseAsked {
  readonly air: ImmediateAir
  readonly item: ImmediateItem | 'complex'
  readonly temperatureC: number
  readonly minutes: number
  readonly reason: 'urgentNoOther' | 'convenience' | 'tooFewSets' | 'lateLoanSet'
  readonly sterileDuplicate: boolean
  readonly implant: boolean
  readonly use: 'atOnce' | 'stored' | 'nextPatient'
  readonly makerAllows: 'yes' | 'no' | 'notOnFile'
}

export type ImmediateDecision = 'accept' | 'reject' | 'notAllowed'

/** First whether it may be done at all, then what becomes of the item, then whether the cycle was enough. */
export function immediateUse(
  asked: ImmediateUseAsked,
  policy: Policy,
): { readonly decision: ImmediateDecision; readonly found: readonly Found[] } {
  const barred = barredBy(asked)
  if (barred.length > 0) return { decision: 'notAllowed', found: barred }
  if (asked.use !== 'atOnce') {
    const says =
      'What was sterilised for immediate use is not kept: not on a shelf, not for the next patient. Wash, pack and sterilise it as usual.'
    return { decision: 'reject', found: [{ weight: 'stop', says, source: immediateUseMeaning }] }
  }
  const row = immediateUseTableRows
    .filter((each) => each.air === asked.air && each.item === asked.item && each.temperatureC <= asked.temperatureC)
    .toSorted((a, b) => b.temperatureC - a.temperatureC)
    .at(0)
  if (row === undefined) {
    const says =
      'There is no general figure for this item and cycle. Only its maker’s instructions decide; without them reject.'
    return { decision: 'reject', found: [{ weight: 'stop', says, source: immediateUseTable }] }
  }
  const limit = policy.limit(row.minutes)
  const met = atLeast(asked.minutes, limit.value)
  const found: Found = {
    weight: met ? 'note' : 'stop',
    says: met
      ? 'Carry it to the field at once, covered; write down patient, reason and indicator.'
      : 'The exposure was too short. Run it again.',
    measured: `${figure(asked.minutes)} min`,
    limit: `at least ${limit.value} min`,
    source: limit.source,
  }
  return { decision: met ? 'accept' : 'reject', found: [found] }
}

function barredBy(asked: ImmediateUseAsked): readonly Found[] {
  const stop = (says: string, source: Found['source'] = immediateUseRules): Found => ({ weight: 'stop', says, source })
  return [
    ...(asked.sterileDuplicate ? [stop('A sterile one is at hand. Use that.')] : []),
    ...(asked.reason === 'urgentNoOther'
      ? []
      : [
          stop(
            'Immediate use is for an urgent need only: never for convenience, for want of sets, or because a loan came late.',
          ),
        ]),
    ...(asked.implant ? [stop('An implant is never sterilised for immediate use.')] : []),
    ...(asked.makerAllows === 'no' ? [stop('The maker of this device does not allow it.', makersInstructions)] : []),
  ]
}
