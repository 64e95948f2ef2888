import assert from 'node:assert/strict'
import { test } from 'node:test'
import { alarmOfReview, alarmOfSum, type AlarmPlan, limitOf } from '../support/alarm-delay.ts'
import { planOf, type Tried, tryOutbreak } from '../support/outbreak-tally.ts'
import { riskierSurgeon, simulateOutbreak } from '../support/outbreak-unit.ts'

/*
 * 2,000 invented outbreaks and 2,000 quiet half-years, each ranked from what the record would hold, and each watched by
 * the running sum and by a review of monthly rates. The seed of a run is its number. Prints its figures.
 */

const runs = 2000
const permutations = 499
const quietSeeds = 1_000_000
const sizes = [
  [0, 2],
  [3, 4],
  [5, 7],
  [8, 12],
  [13, 99],
] as const

test('the planted cause is ranked first where it can be known, and nothing is accused where nothing was planted', () => {
  const tried = Array.from({ length: runs }, (_, index) => tryOutbreak(index + 1, true, permutations))
  for (const [from, to] of sizes)
    console.log(
      lineOf(
        `${from} to ${to} infected by it`,
        tried.filter(({ caused }) => caused >= from && caused <= to),
      ),
    )
  const five = tried.filter(({ caused, identifiable }) => caused >= 5 && identifiable)
  const first = five.filter(({ place }) => place === 1).length
  console.log(`5 or more infected, identifiable: first in ${first} of ${five.length} (${percent(first, five.length)})`)
  assert.ok(five.length > 400 && first / five.length >= 0.95, `${first} of ${five.length}`)

  const quiet = Array.from({ length: runs }, (_, index) => tryOutbreak(quietSeeds + index, false, permutations))
  const named = quiet.filter((each) => each.named !== null)
  // One surgeon's cases are infected more often in every run: that is so, and no step is accused by saying it.
  const accused = named.filter((each) => each.named !== `surgeon ${riskierSurgeon}`).length
  console.log(
    `nothing broken: something named in ${named.length} of ${runs} (${percent(named.length, runs)}), something that had nothing to do with it in ${accused} (${percent(accused, runs)})`,
  )
  assert.ok(accused / runs <= 0.05, `${accused} of ${runs}`)
})

test('the running sum tells of a rise sooner than a review of monthly rates that cries wolf as often', () => {
  const quiet = Array.from({ length: 400 }, (_, index) =>
    simulateOutbreak({ ...planOf(quietSeeds + index), cause: null }),
  )
  const operations = quiet.reduce((sum, { cases }) => sum + cases.length, 0)
  const infected = quiet.reduce((sum, { cases }) => sum + cases.filter((each) => each.infected).length, 0)
  const usualRate = infected / operations
  const plan: AlarmPlan = {
    usualRate,
    raisedRate: 3 * usualRate,
    operationsPerMonth: operations / quiet.length / 6,
    falseAlarmYears: 3,
  }
  const limit = limitOf(plan)
  const waits = Array.from({ length: runs }, (_, index) => {
    const seed = index + 1
    const outbreak = simulateOutbreak(planOf(seed))
    const from = planOf(seed).fromDay
    const after = (day: number | null): number => Math.max(0, (day ?? 210) - from)
    return {
      caused: outbreak.caused,
      early: [alarmOfSum(outbreak, plan, limit), alarmOfReview(outbreak, plan, 'windowEnds', seed)].some(
        (day) => day !== null && day < from,
      ),
      sum: after(alarmOfSum(outbreak, plan, limit)),
      review: after(alarmOfReview(outbreak, plan, 'none', seed)),
      waiting: after(alarmOfReview(outbreak, plan, 'windowEnds', seed)),
    }
  }).filter(({ early }) => !early)
  for (const [from, to] of sizes.slice(1)) {
    const own = waits.filter(({ caused }) => caused >= from && caused <= to)
    const [sum, review, waiting] = (['sum', 'review', 'waiting'] as const).map((kind) =>
      mean(own.map((each) => each[kind])),
    )
    console.log(
      `${from} to ${to} infected (${own.length}): sum ${sum?.toFixed(1)} days, review on the last day of the month ${review?.toFixed(1)}, review when its windows are over ${waiting?.toFixed(1)}`,
    )
    assert.ok((sum ?? 0) < (waiting ?? 0))
  }
})

function lineOf(title: string, tried: readonly Tried[]): string {
  const known = tried.filter(({ identifiable }) => identifiable)
  const count = (list: readonly Tried[], test: (each: Tried) => boolean) =>
    percent(list.filter(test).length, list.length)
  return [
    `${title}: ${tried.length} runs`,
    `first ${count(tried, ({ place }) => place === 1)}`,
    `in the first three ${count(tried, ({ place }) => place !== null && place <= 3)}`,
    `'cannot tell' ${count(tried, ({ verdict }) => verdict === 'cannotTell')}`,
    `another accused ${count(tried, ({ verdict }) => verdict === 'accusedOther')}`,
    `identifiable ${known.length}, of those first ${count(known, ({ place }) => place === 1)}`,
  ].join('; ')
}

function percent(part: number, whole: number): string {
  return whole === 0 ? '-' : `${((100 * part) / whole).toFixed(1)} %`
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
