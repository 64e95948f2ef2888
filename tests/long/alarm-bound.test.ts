import assert from 'node:assert/strict'
import { test } from 'node:test'
import { knowsAllBut, knowsTheRecord } from '../support/alarm-bound.ts'
import { alarmOfReview, alarmOfSum, type AlarmPlan, limitOf } from '../support/alarm-delay.ts'
import { planOf } from '../support/outbreak-tally.ts'
import { simulateOutbreak } from '../support/outbreak-unit.ts'
import {
  dayOver,
  limitReachedBy,
  sharedSumOn,
  sharedSums,
  type SharedWatch,
  type SumOfDay,
} from '../support/shared-sum.ts'

/*
 * How soon an alarm can come at all: the running sum and the review of outbreaks.test.ts beside a sum shared among things,
 * and beside one who knows everything but which thing broke and when. Prints its figures.
 *
 * The sum for a change on an unknown day: Shiryaev 1963, Roberts 1966. That none is sooner in the mean over the day of the
 * change, false alarms being as rare and all cases alike: Pollak and Tartakovsky, "On optimality properties of the
 * Shiryaev-Roberts procedure" (arXiv 0710.5935, abstract read). Mixed over unknown changes: Pollak 1987. The rest from memory.
 */

const runs = 600
const quietSeeds = 1_000_000
const lastDay = 210
/** As often as the running sum of the program that is made for one false alarm in three years. */
const falseAlarms = 0.17
/** Fixed beforehand, not fitted to the generator. */
const oddsRatios = [2, 4, 8, 16]
const sizes = [
  [3, 4],
  [5, 7],
  [8, 12],
  [13, 99],
  [5, 99],
] as const

/** Five cases, three things that come and go, and infections that show themselves up to two days late. */
const small = { days: [0, 0, 1, 3, 4], chances: [0.1, 0.3, 0.2, 0.25, 0.15], latest: 6 }
const smallWatch: SharedWatch = {
  usual: small.chances,
  raised: [3, 8].map((ratio) => small.chances.map((p) => (ratio * p) / (1 + (ratio - 1) * p))),
  met: new Map([
    ['all', [0, 1, 2, 3, 4].map((index) => ({ index, putIn: 0.4 }))],
    ['early', [0, 1, 2].map((index) => ({ index, putIn: 0.6 }))],
    ['new', [3, 4].map((index) => ({ index, putIn: 0.6 }))],
  ]),
  shownBy: (days) => [0.5, 0.8, 1][days] ?? (days < 0 ? 0 : 1),
}

/** Every way in which the five can come out, with its chance. */
function* outcomes(index = 0): Generator<{ readonly shown: readonly (number | null)[]; readonly chance: number }> {
  const day = small.days[index]
  if (day === undefined) {
    yield { shown: [], chance: 1 }
    return
  }
  const p = small.chances[index] ?? 0
  const ends = [
    { on: null, chance: 1 - p },
    { on: day, chance: p * 0.5 },
    { on: day + 1, chance: p * 0.3 },
    { on: day + 2, chance: p * 0.2 },
  ]
  for (const rest of outcomes(index + 1))
    for (const { on, chance } of ends) yield { shown: [on, ...rest.shown], chance: chance * rest.chance }
}

test('the shared sum has in the mean what was put in, on every day and at its first alarm', () => {
  const putInBy = (today: number) => small.days.filter((day) => day <= today).length
  for (let today = 0; today <= small.latest; today += 1) {
    let mean = 0
    for (const { shown, chance } of outcomes())
      mean += chance * sharedSumOn(today, { days: small.days, shown }, smallWatch)
    assert.ok(Math.abs(mean - putInBy(today)) < 1e-12, `day ${today}: ${mean}`)
  }
  for (const limit of [2, 5, 12]) {
    let [put, held, alarmed] = [0, 0, 0]
    for (const { shown, chance } of outcomes()) {
      const sumOn = (today: number) => sharedSumOn(today, { days: small.days, shown }, smallWatch)
      let today = 0
      while (today < small.latest && sumOn(today) < limit) today += 1
      put += chance * putInBy(today)
      held += chance * sumOn(today)
      if (sumOn(today) >= limit) alarmed += chance
    }
    assert.ok(Math.abs(put - held) < 1e-12, `limit ${limit}: ${put} put in, ${held} held`)
    assert.ok(alarmed > 0 && alarmed * limit <= put)
  }
})

interface Watched {
  readonly caused: number
  readonly from: number
  readonly sum: number | null
  readonly review: number | null
  readonly allBut: readonly SumOfDay[]
  readonly allButInDays: readonly SumOfDay[]
  readonly record: readonly SumOfDay[]
  readonly thingsOnly: readonly SumOfDay[]
}

test('for three or four infected not even one who knows all but the thing and the day halves the delay of the review', () => {
  const quietPlans = Array.from({ length: runs }, (_, index) => ({ ...planOf(quietSeeds + index), cause: null }))
  let [operations, infected] = [0, 0]
  for (const each of quietPlans) {
    const { cases } = simulateOutbreak(each)
    operations += cases.length
    infected += cases.filter((one) => one.infected).length
  }
  const usualRate = infected / operations
  const operationsPerMonth = operations / runs / 6
  const plan: AlarmPlan = { usualRate, raisedRate: 3 * usualRate, operationsPerMonth, falseAlarmYears: 3 }
  const limit = limitOf(plan)
  const watch = (given: ReturnType<typeof planOf>): Watched => {
    const outbreak = simulateOutbreak(given)
    return {
      caused: outbreak.caused,
      from: given.fromDay,
      sum: alarmOfSum(outbreak, plan, limit),
      review: alarmOfReview(outbreak, plan, 'windowEnds', given.seed),
      allBut: sharedSums(outbreak, knowsAllBut(outbreak, given, null)),
      allButInDays: sharedSums(outbreak, knowsAllBut(outbreak, given, { from: 60, to: 120 })),
      record: sharedSums(outbreak, knowsTheRecord(outbreak, usualRate, { oddsRatios, toAll: 0.5 })),
      thingsOnly: sharedSums(outbreak, knowsTheRecord(outbreak, usualRate, { oddsRatios, toAll: 0 })),
    }
  }
  const quiet = quietPlans.map(watch)
  const broken = Array.from({ length: runs }, (_, index) => watch(planOf(index + 1)))
  const limitAt = (of: 'allBut' | 'allButInDays' | 'record' | 'thingsOnly') =>
    limitReachedBy(
      quiet.map((each) => each[of]),
      falseAlarms,
    )
  const proven = operationsPerMonth * 12 * 3
  const [all, inDays] = [limitAt('allBut'), limitAt('allButInDays')]
  const [record, thingsOnly] = [limitAt('record'), limitAt('thingsOnly')]
  const designs: readonly (readonly [string, (each: Watched) => number | null])[] = [
    ['review when its windows are over', (each) => each.review],
    ['running sum', (each) => each.sum],
    ['shared sum, proven limit', (each) => dayOver(each.record, proven)],
    ['shared sum, limit by simulation', (each) => dayOver(each.record, record)],
    ['shared among things only, limit by simulation', (each) => dayOver(each.thingsOnly, thingsOnly)],
    ['knows all but the thing and the day', (each) => dayOver(each.allBut, all)],
    ['knows the days between which it breaks too', (each) => dayOver(each.allButInDays, inDays)],
  ]
  const shares = new Map<string, readonly number[]>()
  for (const [name, alarm] of designs) {
    const cried = quiet.filter((each) => alarm(each) !== null).length
    const early = ({ from }: Watched, day: number | null) => day !== null && day < from
    const rows = sizes.map(([least, most]) => {
      const own = broken.filter(
        (each) => each.caused >= least && each.caused <= most && !early(each, alarm(each)) && !early(each, each.review),
      )
      const wait = mean(own.map((each) => (alarm(each) ?? lastDay) - each.from))
      return { wait, share: wait / mean(own.map((each) => (each.review ?? lastDay) - each.from)) }
    })
    shares.set(
      name,
      rows.map((row) => row.share),
    )
    console.log(
      `${name}: false alarms ${((100 * cried) / runs).toFixed(1)} %; ${rows.map(({ wait, share }) => `${wait.toFixed(1)} (${share.toFixed(2)})`).join(', ')}`,
    )
  }
  // Of a sum that has n in the mean at the end, at most n in A runs reach A (Doob).
  const within = operations / runs / proven
  const cried = quiet.filter((each) => dayOver(each.record, proven) !== null).length / runs
  assert.ok(cried <= within, `${cried} of the runs, at most ${within}`)
  const [few] = shares.get('knows all but the thing and the day') ?? []
  assert.ok(few !== undefined && few > 0.5, `${few}`)
  const [fewInDays] = shares.get('knows the days between which it breaks too') ?? []
  assert.ok(fewInDays !== undefined && fewInDays > 0.5, `${fewInDays}`)
})

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
