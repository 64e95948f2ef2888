import { designBernoulliCusum } from '#workings/statistics/bernoulli-cusum-design.ts'
import { bernoulliWeights } from '#workings/statistics/run-length/bernoulli-run-length.ts'
import { binomialAtLeast } from '#workings/statistics/special/binomial.ts'
import { seededGenerator } from '#workings/statistics/special/seeded-generator.ts'
import type { Outbreak } from './outbreak-unit.ts'

/*
 * When an outbreak is noticed: by the running sum of the program, by a review of each month's rate that has its figures on
 * the last day of the month, and by one that waits, as rates must, until the 30 days of its last patient are over. All cry
 * wolf equally often; the reviews are given a limit between two counts by the throw of a die, so that theirs is no rarer.
 */

export interface AlarmPlan {
  readonly usualRate: number
  readonly raisedRate: number
  readonly operationsPerMonth: number
  readonly falseAlarmYears: number
}

const monthDays = 30
const windowDays = 30

/** The limit of the running sum that these wishes come to. */
export function limitOf({ usualRate, raisedRate, operationsPerMonth, falseAlarmYears }: AlarmPlan): number {
  return designBernoulliCusum(usualRate, raisedRate, operationsPerMonth * 12 * falseAlarmYears).h
}

/**
 * The day on which the running sum first stands over its limit, with what is known on that day; null when it never does.
 * Each morning the sum is worked out anew over all operations so far: an infection counts from the day it shows itself.
 */
export function alarmOfSum(
  { days, shown }: Outbreak,
  { usualRate, raisedRate }: AlarmPlan,
  limit: number,
): number | null {
  const [up, down] = bernoulliWeights(usualRate, raisedRate)
  const news = [...new Set(shown.flatMap((day) => day ?? []))].sort((a, b) => a - b)
  for (const today of news) {
    let sum = 0
    for (const [index, day] of days.entries()) {
      if (day > today) break
      const infected = shown[index] !== null && (shown[index] ?? 0) <= today
      sum = Math.max(0, sum + (infected ? up : down))
      if (sum >= limit) return today
    }
  }
  return null
}

/** The day on which a review of monthly rates first alarms; it counts infections by the month of their operation. */
export function alarmOfReview(
  { days, shown }: Outbreak,
  { usualRate, falseAlarmYears }: AlarmPlan,
  wait: 'none' | 'windowEnds',
  seed: number,
): number | null {
  const dice = seededGenerator(seed)
  const last = days.at(-1) ?? 0
  for (let from = 0; from + monthDays - 1 <= last; from += monthDays) {
    const end = from + monthDays - 1
    const judgedOn = wait === 'none' ? end : end + windowDays
    const own = days.flatMap((day, index) => (day >= from && day <= end ? [index] : []))
    const infected = own.filter((index) => shown[index] !== null && (shown[index] ?? 0) <= judgedOn).length
    const { count, share } = reviewLimit(own.length, usualRate, 1 / (falseAlarmYears * 12))
    const drawn = dice.next()
    if (infected > count || (infected === count && drawn < share)) return judgedOn
  }
  return null
}

/** A month with more than `count` infections alarms; one with just so many does in this share. */
function reviewLimit(
  operations: number,
  rate: number,
  chance: number,
): { readonly count: number; readonly share: number } {
  let count = 0
  while (binomialAtLeast(count + 1, operations, rate) > chance) count += 1
  const above = binomialAtLeast(count + 1, operations, rate)
  return { count, share: (chance - above) / (binomialAtLeast(count, operations, rate) - above) }
}
