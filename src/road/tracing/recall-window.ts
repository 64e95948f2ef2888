import type { Source } from '#units/source.ts'
import type { Instant } from '../instant.ts'
import type { WantedIncubation } from '../sterilising/incubation.ts'
import { biologicalOutcome, hasGrown, type LoadKnown, loadTime } from '../sterilising/load-fold.ts'
import { cdcPositiveIndicator, nonSteamPositive, recallProposal } from '../sterilising/sources.ts'
import type { SubjectId } from '../subject.ts'
import { compareLoads } from './loads-run-on.ts'

/** What the policy chooses about recalls. */
export interface RecallChoices {
  readonly onSinglePositive: boolean
  readonly failedLoadAlways: boolean
  readonly perProgram: boolean
  readonly repeatsNeeded: number
  /** What an indicator needs before no growth is a good result. */
  readonly incubation: WantedIncubation
  /** For methods other than steam one failure is enough, and the window closes at the next good result. */
  readonly oneFailureIsEnough: boolean
}

/** When and why a recall was opened and closed, and until when repeat tests count for it. */
export interface RecallOpening {
  readonly defectProven: boolean
  /** A fault of the machine that is known to have begun then: good results after that moment prove nothing. */
  readonly since: Instant | null
  readonly closedAt: Instant | null
  readonly repeatsUntil: Instant
}

export type RecallVerdict = 'repeatsPending' | 'everything' | 'clearedByRepeats'

export interface RecallWindow {
  /** The last load with a good biological result before the failure, itself not recalled; null when there is none. */
  readonly lastGood: SubjectId<'load'> | null
  readonly verdict: RecallVerdict
  /** Why, in plain words, with its source. */
  readonly because: string
  readonly source: Source
  readonly repeatsGood: number
  /** The loads in question, the failed one included, by the end of their cycles. */
  readonly loads: readonly LoadKnown[]
}

/** Whether this load shows that the steriliser worked: no growth in its whole time, beside a control of the same lot that grew. */
export function isGood(load: LoadKnown, { incubation }: Pick<RecallChoices, 'incubation'>): boolean {
  return biologicalOutcome(load, incubation) === 'negative' && load.cycle?.report.verdict !== 'notMet'
}

/** Whether this load shows that the steriliser or its use was at fault. */
function isBad(load: LoadKnown): boolean {
  return hasGrown(load)
}

/** A fault in the cycle's record or in a chemical indicator, beside the failure itself. */
function hasOtherFault(load: LoadKnown): boolean {
  return load.cycle?.report.verdict === 'notMet' || load.chemical.some((read) => read.result === 'failed')
}

/**
 * Which loads a failure puts in question, and what is to become of them, by whatever method. `loads` are the loads of the
 * steriliser as they are known now, in any order; more than needed does no harm.
 *
 * The window opens after the last good result before the failure, or where a fault is known to have begun, and closes
 * before the load that gives the last of three good results in a row after it (for methods other than steam, the first):
 * only evidence closes it, never a date of withdrawal or return. Indicators that saw nothing of a fault with a known
 * beginning do not close it either: then only repeats and qualifications count.
 */
export function recallWindow(
  failed: LoadKnown,
  loads: readonly LoadKnown[],
  opened: RecallOpening,
  choices: RecallChoices,
): RecallWindow {
  const inOrder = loads.filter((load) => load.id !== failed.id && loadTime(load) !== null).sort(compareLoads)
  const before = inOrder.filter((load) => compareLoads(load, failed) < 0)
  const after = inOrder.filter(
    (load) => compareLoads(load, failed) > 0 && (opened.closedAt === null || (loadTime(load) ?? '') <= opened.closedAt),
  )
  const counts = (load: LoadKnown): boolean => !choices.perProgram || load.program === failed.program

  const inTime = (load: LoadKnown): boolean => opened.since === null || (loadTime(load) ?? '') < opened.since
  const goodOfAny = before.findLast((load) => isGood(load, choices) && inTime(load))
  const good = before.findLast((load) => isGood(load, choices) && inTime(load) && counts(load))
  const provenAgain = lastOfRow(closing(after, opened).filter(counts), choices)
  const since = (from: LoadKnown | undefined) => (load: LoadKnown) =>
    (from === undefined || compareLoads(load, from) > 0) &&
    !(opened.since !== null && inTime(load)) &&
    (provenAgain === undefined || compareLoads(load, provenAgain) < 0)

  const repeats = judgeRepeats(after, choices, opened.repeatsUntil)
  const othersFailed = [...before, ...after].some((load) => isBad(load) && since(good)(load))
  const proof = proofOfDefect({
    defectProven: opened.defectProven || opened.since !== null,
    otherFault: hasOtherFault(failed),
    repeatFailed: repeats.failed,
    othersFailed,
  })

  const inQuestion = [...before, failed, ...after].filter(
    (load) =>
      load.id === failed.id ||
      (counts(load) && since(good)(load)) ||
      // A defect that is proven is one of the machine: then every program counts.
      (proof !== undefined && since(goodOfAny)(load)),
  )
  return {
    // A fault with a known beginning is not bounded by a result.
    lastGood: opened.since === null ? (good?.id ?? null) : null,
    ...verdictOf(proof, repeats, choices),
    repeatsGood: repeats.good,
    loads: inQuestion,
  }
}

/**
 * Whether the loads up to a moment settle both where the window closes and what the repeats say, so that no later load
 * can change either. All loads that ended before that moment must be among those given.
 */
export function isSettled(
  failed: LoadKnown,
  loads: readonly LoadKnown[],
  upTo: Instant,
  opened: RecallOpening,
  choices: RecallChoices,
): boolean {
  const after = loads
    .filter((load) => compareLoads(load, failed) > 0 && (loadTime(load) ?? upTo) < upTo)
    .sort(compareLoads)
  const counted = after.filter((load) => !choices.perProgram || load.program === failed.program)
  if (lastOfRow(closing(counted, opened), choices) === undefined) return false
  const repeats = judgeRepeats(after, choices, opened.repeatsUntil)
  return repeats.failed || repeats.good >= choices.repeatsNeeded || upTo > opened.repeatsUntil
}

/** The loads whose good results may close the window, and every failure, which breaks their row. */
function closing(after: readonly LoadKnown[], { since }: RecallOpening): readonly LoadKnown[] {
  if (since === null) return after
  return after.filter((load) => load.purpose === 'retest' || load.purpose === 'qualification' || isBad(load))
}

function closesAfter(choices: RecallChoices): number {
  return choices.oneFailureIsEnough ? 1 : choices.repeatsNeeded
}

/** The load that completes a row of good results that no failure breaks; unread and invalid results neither count nor break. */
function lastOfRow(loads: readonly LoadKnown[], choices: RecallChoices): LoadKnown | undefined {
  const needed = closesAfter(choices)
  let row = 0
  for (const load of loads) {
    if (isBad(load)) row = 0
    else if (isGood(load, choices)) row += 1
    if (row >= needed) return load
  }
  return undefined
}

interface Repeats {
  readonly good: number
  readonly failed: boolean
}

/**
 * The repeats in their order, up to the first that fails or the last that is needed. Repeats run long after the recall was
 * opened belong to something else: they neither clear it nor widen it.
 */
function judgeRepeats(after: readonly LoadKnown[], choices: RecallChoices, until: Instant): Repeats {
  let good = 0
  for (const load of after) {
    if (load.purpose !== 'retest' || (loadTime(load) ?? '') > until) continue
    if (isBad(load) || load.cycle?.report.verdict === 'notMet') return { good, failed: true }
    if (isGood(load, choices)) good += 1
    if (good >= choices.repeatsNeeded) break
  }
  return { good, failed: false }
}

function proofOfDefect(seen: {
  defectProven: boolean
  otherFault: boolean
  repeatFailed: boolean
  othersFailed: boolean
}): string | undefined {
  if (seen.defectProven) return 'A defect of the steriliser or of its use is proven.'
  if (seen.otherFault) return 'The failed load has a fault in its cycle or in a chemical indicator too.'
  if (seen.repeatFailed) return 'A repeat test failed.'
  if (seen.othersFailed) return 'More than one load of this steriliser failed.'
  return undefined
}

function verdictOf(
  proof: string | undefined,
  repeats: Repeats,
  choices: RecallChoices,
): Pick<RecallWindow, 'verdict' | 'because' | 'source'> {
  if (proof !== undefined) return { verdict: 'everything', because: proof, source: cdcPositiveIndicator }
  if (choices.oneFailureIsEnough) {
    return {
      verdict: 'everything',
      because: 'This method is not steam: a single failure recalls everything since the last good result.',
      source: nonSteamPositive,
    }
  }
  if (choices.onSinglePositive) {
    return {
      verdict: 'everything',
      because: 'The policy of this unit recalls after a single failure.',
      source: recallProposal,
    }
  }
  if (repeats.good >= choices.repeatsNeeded) {
    return {
      verdict: 'clearedByRepeats',
      because: `${repeats.good} repeat tests in a row were good.`,
      source: cdcPositiveIndicator,
    }
  }
  return {
    verdict: 'repeatsPending',
    because: `${repeats.good} of ${choices.repeatsNeeded} repeat tests are good so far.`,
    source: cdcPositiveIndicator,
  }
}
