import assert from 'node:assert/strict'
import { test } from 'node:test'
import { captured } from './captured.suite.ts'
import { runPlan } from './plan.ts'
import { planDayWorking } from '#workings/planning/plan-day-working.ts'

const { day } = planDayWorking.example.input as { day: Record<string, unknown> }

async function run(value: unknown, ...args: string[]) {
  const streams = captured(typeof value === 'string' ? value : JSON.stringify(value))
  const code = await runPlan(['-', ...args], streams.io)
  return { code, out: streams.out(), err: streams.err() }
}

test('plan prints the plan as JSON, of a day or of a file with the field instance', async () => {
  for (const value of [day, { note: 'a test', instance: day }]) {
    const { code, out } = await run(value, '--json', '--decodes', '100')
    assert.equal(code, 0)
    const answer: unknown = JSON.parse(out)
    assert.partialDeepStrictEqual(answer, {
      status: 'optimal',
      objective: { inversions: 0, overtime: 0, occupied: 205 },
      bound: { inversions: 0, overtime: 0, occupied: 205 },
      schedule: { cases: { C2: { theatre: 'T1', start: 175 } } },
    })
    assert.equal(typeof Reflect.get(Object(answer), 'seconds'), 'number')
  }
})

test('plan prints the lists for people', async () => {
  const { out } = await run(day, '--decodes', '100')
  assert.match(out, /^Inversions 0, overtime 0 min, theatres occupied 205 min: optimal, no plan is better\n/)
  assert.match(out, /02:55 to 03:55 {2}C2 \(S1\): LAP 1/)
  assert.match(out, /LAP 1 after C1, steam: pack 01:30, steam 01:45; ready 02:45/)
})

test('plan exits 3 with reasons when there is no plan', async () => {
  const short = { ...day, theatres: [{ id: 'T1', open: 30, close: 100, hardClose: 200 }] }
  const { code, out } = await run(short, '--json')
  assert.equal(code, 3)
  const answer: unknown = JSON.parse(out)
  assert.partialDeepStrictEqual(answer, { status: 'infeasible', objective: null, schedule: null })
  assert.match(out, /It can be done with 1 more LAP|may stay open|without C1/)
})

test('plan exits 2 with one line: field, wanted, current', async () => {
  const rows: readonly (readonly [unknown, string[], RegExp])[] = [
    ['', [], /^input: wanted JSON, current value is empty\n$/],
    [{ ...day, horizon: 'long' }, [], /^horizon: wanted number, current value is "long"\n$/],
    [{ instance: { ...day, cases: [] } }, [], /^cases: wanted list of >= 1 entries, current value is \[\]\n$/],
    [{ ...day, pools: [] }, [], /routes\.steam\[0\]\.pool: wanted a staff pool of this day, current value is "bench"/],
    [day, ['--seconds', 'soon'], /^--seconds: wanted a number > 0/],
    [day, ['--seed', '1.5'], /^--seed: wanted a whole number >= 0/],
    [day, ['--decodes', '0'], /^--decodes: wanted a whole number >= 1/],
    [day, ['--fast'], /^arguments: wanted plan FILE/],
  ]
  for (const [value, args, line] of rows) {
    const { code, out, err } = await run(value, ...args)
    assert.deepEqual({ code, out }, { code: 2, out: '' })
    assert.match(err, line)
  }
})
