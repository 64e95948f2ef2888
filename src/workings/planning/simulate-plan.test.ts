import assert from 'node:assert/strict'
import { test } from 'node:test'
import { normalLower } from '../statistics/special/normal.ts'
import { fitLogNormal } from './fit-log-normal.ts'
import { PlanInstance } from './instance.ts'
import { planDay } from './plan-day.ts'
import { planDayWorking } from './plan-day-working.ts'
import { purchasesOf, savingOf } from './purchases.ts'
import { simulatePlan } from './simulate-plan.ts'

const { day: example } = planDayWorking.example.input as { day: unknown }
const withSets = PlanInstance.parse(example)
const runs = 20_000

/** One theatre from minute 0 and no turnover: the end is the sum of the durations. */
function bare(durations: readonly number[], close: number): PlanInstance {
  return PlanInstance.parse({
    ...withSets,
    theatres: [{ id: 'T1', open: 0, close, hardClose: 5000 }],
    turnover: { standard: 0, dirty: 0, infectious: 0 },
    cases: durations.map((dur, index) => ({ ...withSets.cases[0], id: `C${index}`, dur, needs: {} })),
  })
}

function planned(day: PlanInstance) {
  const { schedule } = planDay(day, { seed: 1, decodes: 500 })
  assert.ok(schedule !== null)
  return schedule
}

test('one case ends in time with the probability of its own log-normal', () => {
  const day = bare([60], 75)
  const { onTime } = simulatePlan(day, planned(day), { runs, seed: 7, spread: { C0: 0.3 }, lateFrom: 0 })
  const exact = normalLower(Math.log(75 / 60) / 0.3)
  assert.ok(Math.abs(onTime.share - exact) < 4 * onTime.standardError, `${onTime.share} against ${exact}`)
})

test('the end of a list has the mean of a sum of log-normals, and nearly its share of runs in time', () => {
  // L. F. Fenton, The sum of log-normal probability distributions in scatter transmission systems, IRE Transactions on
  // Communications Systems 8 (1960): the sum is nearly log-normal with the exact mean and variance of the sum.
  const durations = [60, 80, 50, 70]
  const sd = 0.25
  const day = bare(durations, 300)
  const spread = Object.fromEntries(durations.map((_, index) => [`C${index}`, sd]))
  const { ends, minutes, onTime } = simulatePlan(day, planned(day), { runs, seed: 3, spread, lateFrom: 0 })
  const mean = durations.reduce((sum, each) => sum + each * Math.exp(sd ** 2 / 2), 0)
  const variance = durations.reduce((sum, each) => sum + each ** 2 * Math.exp(sd ** 2) * (Math.exp(sd ** 2) - 1), 0)
  const standardError = Math.sqrt(variance / runs)
  assert.ok(Math.abs((ends[0]?.mean ?? 0) - mean) < 4 * standardError, `${ends[0]?.mean} against ${mean}`)
  const found = minutes.reduce((sum, each) => sum + (each - mean) ** 2, 0) / runs
  assert.ok(Math.abs(found / variance - 1) < 0.06, `${found} against ${variance}`)
  const logVariance = Math.log(1 + variance / mean ** 2)
  const near = normalLower((Math.log(300 / mean) + logVariance / 2) / Math.sqrt(logVariance))
  assert.ok(Math.abs(onTime.share - near) < 0.015, `${onTime.share} against ${near}`)
})

test('minutes late behind a case are the expected excess of its log-normal over what was told', () => {
  // E[max(0, X - k)] = e^(sd²/2) m Φ(sd + ln(m/k)/sd) - k Φ(ln(m/k)/sd) for a log-normal with median m: the partial expectation in
  // N. L. Johnson, S. Kotz, N. Balakrishnan, Continuous Univariate Distributions 1 (1994), chapter 14.
  const day = bare([60, 60], 300)
  const sd = 0.3
  const told = 65
  const { cases } = planned(day)
  const schedule = {
    cases: { ...cases, C0: { theatre: 'T1', start: 0 }, C1: { theatre: 'T1', start: told } },
    uses: [],
  }
  const simulation = { runs, seed: 5, spread: { C0: sd }, notBefore: { C0: 0, C1: told }, lateFrom: 0 }
  const { lateMinutes, lateStarts } = simulatePlan(day, schedule, simulation)
  const z = Math.log(60 / told) / sd
  const exact = 60 * Math.exp(sd ** 2 / 2) * normalLower(z + sd) - told * normalLower(z)
  assert.ok(Math.abs(lateMinutes.mean - exact) < 4 * lateMinutes.standardError, `${lateMinutes.mean} against ${exact}`)
  assert.ok(Math.abs(lateStarts.mean - normalLower(z)) < 4 * lateStarts.standardError)
})

test('without spread a plan runs as it is written, and its only set is what the second case waits for', () => {
  const simulated = simulatePlan(withSets, planned(withSets), { runs: 5, seed: 1, spread: {}, lateFrom: 0 })
  // Opens at 00:30, ends at 03:55: 205 min, as planned.
  assert.deepEqual(simulated.minutes, [205, 205, 205, 205, 205])
  assert.deepEqual(simulated.onTime, { share: 1, standardError: 0 })
  assert.deepEqual(
    simulated.lateSets.map(({ case: one, share }) => [one, share]),
    [
      ['C1', 0],
      ['C2', 1],
    ],
  )
  assert.equal(simulated.lateStarts.mean, 0)
})

test('one more set saves the wait for it, with the same luck and so a small error', () => {
  const base = { day: withSets, plan: planDay(withSets, { seed: 1, decodes: 500 }) }
  const simulation = { runs: 2000, seed: 1, spread: { C1: 0.3, C2: 0.3 }, lateFrom: 15 }
  const gas = (withSets.routes['steam'] ?? []).map((step) => (step.kind === 'batch' ? { ...step, pool: 'gas' } : step))
  const steam = withSets.pools.find(({ id }) => id === 'steam')
  assert.ok(steam !== undefined)
  const allowed = {
    ...withSets,
    setTypes: withSets.setTypes.map((type) => ({ ...type, otherRoutes: ['gas'] })),
    routes: { ...withSets.routes, gas },
    pools: [...withSets.pools, { ...steam, id: 'gas', dur: 45 }],
  }
  const savings = purchasesOf(allowed).flatMap((purchase) => {
    const plan = planDay(purchase.day, { seed: 1, decodes: 500 })
    return savingOf(base, { ...purchase, plan }, simulation) ?? []
  })
  const set = savings.find(({ kind }) => kind === 'set')
  // The second case begins at 01:45 in place of 02:55: the set comes back 70 min after the theatre is ready, whatever the luck.
  assert.equal(set?.planned.occupied, 70)
  assert.ok(Math.abs((set?.minutes.mean ?? 0) - 70) < 1e-9 && (set?.minutes.standardError ?? 1) < 1e-9)
  assert.equal(set?.proven, true)
  const faster = savings.find(({ kind }) => kind === 'fasterRoute')
  assert.equal(faster?.planned.occupied, 15)
  // A second bench, steriliser or chamber for gas does nothing for one set.
  assert.deepEqual(
    savings.filter(({ kind }) => kind === 'staff' || kind === 'machine').map(({ minutes }) => minutes.mean),
    [0, 0, 0],
  )
})

test('a saving between plans that are not proven carries its warning', () => {
  const plan = planDay(withSets, { seed: 1, decodes: 500 })
  assert.ok(plan.schedule !== null)
  const unproven = { ...plan, status: 'feasible' as const }
  const [purchase] = purchasesOf(withSets)
  assert.ok(purchase)
  const simulation = { runs: 10, seed: 1, spread: {}, lateFrom: 0 }
  const saving = savingOf({ day: withSets, plan: unproven }, { ...purchase, day: withSets, plan: unproven }, simulation)
  assert.match(saving?.warning ?? '', /not proven/)
})

test('a log-normal fit is the mean and the standard deviation of the logarithms', () => {
  const fit = fitLogNormal([Math.exp(1), Math.exp(2), Math.exp(3)])
  assert.equal(fit?.n, 3)
  assert.ok(Math.abs((fit?.geometricMean ?? 0) - Math.exp(2)) < 1e-9)
  assert.ok(Math.abs((fit?.logSd ?? 0) - 1) < 1e-9)
  assert.equal(fitLogNormal([5]), null)
})
