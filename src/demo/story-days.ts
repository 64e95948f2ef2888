import { today } from './hospital-clock.ts'

/*
 * On which working days the planted things happen. The stories are counted back from today, so that they are fresh
 * whenever the demo is made.
 */

/** Steriliser B's last biological indicator without growth before the failure. */
export const lastGoodDay = today - 6
/** Steriliser B's indicator of this day grows; it is read on the day after. */
export const failedIndicatorDay = today - 2
export const failureReadDay = today - 1

/** The evening on which eleven packs were put into one load and its drying was cut short. */
export const lateLoadDay = today - 55
export const latePacks = 11
export const lateShelf = 'Store 2, low shelf by the sink'

/** Steriliser A fails its air-removal test twice, is repaired on the next day and back on the one after. */
export const airRemovalFailureDay = 117
/** Few cases while one steriliser carries the unit. */
export const quietDays: ReadonlySet<number> = new Set([0, 1, 2].map((after) => airRemovalFailureDay + after))

/** The sterilisers carry an indicator every fourth working day, so that no two are more than a week apart. */
export const indicatorEvery = 4
/** A set waits for its soak into the evening: nobody knew that its case was over. */
export const forgottenSoakDay = 38

/** The list of the day after tomorrow is booked with too few bariatric sets: what the planner is for can be seen at once. */
export const shortListAhead = today + 2

/** Lists that lack sets keep away from the first weeks and from the machines that are out, so that each can be told apart. */
export function mayLackSets(workingDay: number): boolean {
  const outDays = [...quietDays, ...washerOutDays]
  return workingDay > 30 && workingDay < today - 8 && outDays.every((day) => Math.abs(day - workingDay) > 2)
}

export const shortHoldDay = 64
export const leakDay = 181
export const correctedCaseDay = 91
export const washerOutDays: ReadonlySet<number> = new Set([143, 144, 145])

/** The chart of infections is set up at the end of the first month, and started again after the rise of those days. */
export const chartSetDay = 21
export const chartRestartDay = 162
