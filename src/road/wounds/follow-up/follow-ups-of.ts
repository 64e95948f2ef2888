import { type Instant, instant, millis } from '../../instant.ts'
import type { CaseKnown } from '../../operating/fold.ts'
import type { Policy } from '../../policy.ts'
import type { WoundKnown } from '../fold.ts'
import { callGraceDays, firstCallDay, lateCallDay, lostAfterDays } from '../limits.ts'
import { countingWindow } from './counting-window.ts'
import { operatedOn } from './operated-on.ts'

export type CallState = 'done' | 'later' | 'due' | 'overdue' | 'lost' | 'notNeeded'

/** One call to a patient: on which day after the operation (day 1 is its day), and how it stands. */
export interface Call {
  readonly why: 'early' | 'windowEnds' | 'slowOrganisms'
  readonly day: number
  readonly dueAt: Instant
  readonly state: CallState
  /** The follow-up that did it. */
  readonly doneAt: Instant | null
}

export interface FollowUp {
  readonly calls: readonly Call[]
  /** The last moment at which somebody was heard of this wound. */
  readonly lastHeardAt: Instant | null
  /** Whether the outcome of the counted window is known: heard of at its end or later, infected, or dead. */
  readonly complete: boolean
  /** Whether it can still become so. */
  readonly standing: 'running' | 'complete' | 'lost'
}

const dayMs = 86_400_000

/**
 * The calls of one case and how they stand at this moment; null while the operation is not recorded.
 *
 * A call is done by any contact that reached somebody on its day or later, and, for the early one, from two days
 * before it. An infection that is judged or a death ends the need for calls.
 */
export function followUpsOf(
  operation: CaseKnown,
  wounds: readonly WoundKnown[],
  policy: Policy,
  now: Instant,
): FollowUp | null {
  const operated = operatedOn(operation)
  if (operated === null) return null
  const heard = contacts(operation, wounds)
  const ended = endOf(operation, wounds)
  const windowDays = Math.max(countingWindow(operation, 'superficial').days, countingWindow(operation, 'deep').days)
  const plan = planOf(windowDays, policy)
  const grace = policy.limit(callGraceDays).value
  const lost = grace + policy.limit(lostAfterDays).value
  const calls = plan.map(({ why, day }): Call => {
    const dueAt = instant(millis(operated) + (day - 1) * dayMs)
    const early = why === 'early' ? 2 : 0
    const doneAt = heard.find((at) => millis(at) >= millis(dueAt) - early * dayMs) ?? null
    return { why, day, dueAt, doneAt, state: stateOf({ dueAt, doneAt, ended, now, grace, lost }) }
  })
  const closing = calls.find((call) => call.why === 'windowEnds')
  const complete = closing?.state === 'done' || ended === 'infected' || ended === 'dead'
  const given = ended === 'givenUp' || closing?.state === 'lost'
  return {
    calls,
    lastHeardAt: heard.at(-1) ?? null,
    complete,
    standing: complete ? 'complete' : given ? 'lost' : 'running',
  }
}

type End = 'infected' | 'dead' | 'givenUp' | null

function endOf(operation: CaseKnown, wounds: readonly WoundKnown[]): End {
  if (wounds.some((wound) => wound.judged?.outcome === 'infection')) return 'infected'
  const died = wounds.some((wound) => wound.treatments.some((each) => each.what === 'death'))
  if (died || operation.followUpEnded?.because === 'died' || operation.followUps.some((each) => each.alive === 'no'))
    return 'dead'
  return operation.followUpEnded === null ? null : 'givenUp'
}

/** Every moment at which somebody was heard of this patient's wound, the oldest first. */
function contacts(operation: CaseKnown, wounds: readonly WoundKnown[]): readonly Instant[] {
  const calls = operation.followUps.filter((each) => each.reached !== 'nobody').map((each) => each.at)
  const seen = wounds.flatMap((wound) => [
    ...(wound.noted === null ? [] : [wound.noted.at]),
    ...wound.treatments.map((each) => each.at),
  ])
  return [...calls, ...seen].sort()
}

function planOf(windowDays: number, policy: Policy): readonly { readonly why: Call['why']; readonly day: number }[] {
  const first = policy.limit(firstCallDay).value
  const late = policy.limit(lateCallDay).value
  return [
    ...(first < windowDays ? [{ why: 'early' as const, day: first }] : []),
    { why: 'windowEnds' as const, day: windowDays },
    ...(late > windowDays ? [{ why: 'slowOrganisms' as const, day: late }] : []),
  ]
}

function stateOf(call: {
  readonly dueAt: Instant
  readonly doneAt: Instant | null
  readonly ended: End
  readonly now: Instant
  readonly grace: number
  readonly lost: number
}): CallState {
  if (call.doneAt !== null) return 'done'
  if (call.ended === 'infected' || call.ended === 'dead') return 'notNeeded'
  if (call.ended === 'givenUp') return 'lost'
  const over = (millis(call.now) - millis(call.dueAt)) / dayMs
  if (over < 0) return 'later'
  if (over <= call.grace) return 'due'
  return over <= call.lost ? 'overdue' : 'lost'
}
