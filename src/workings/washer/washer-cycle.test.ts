import assert from 'node:assert/strict'
import { test } from 'node:test'
import { assert as holds, boolean, integer, property } from 'fast-check'
import { readWasherCycles, type WasherCycleReading } from './read-washer-cycles.ts'
import type { WasherProgram } from './washer-program.ts'

/* Logs made from a known truth: a plateau of known height and length, ramps known too, drying hotter than the plateau. */

const program: WasherProgram = { a0Seconds: 600, disinfectionC: 90, bandK: 5, holdSeconds: 60 }

interface Truth {
  readonly plateauC: number
  readonly plateauSeconds: number
  readonly coldestBelowK?: number
  readonly stages?: boolean
  readonly rinse?: number
  readonly drop?: (second: number) => boolean
  readonly stuckAt?: number
}

/** One row a second; heating is a step, so that the A0 of the plateau is the whole of it up to one step. */
function logOf(truth: Truth): string {
  const { plateauC, plateauSeconds, coldestBelowK = 0.4, stages = true, rinse, drop = () => false, stuckAt } = truth
  const rows = [
    [
      'seconds',
      ...(stages ? ['stage'] : []),
      'T1 (°C)',
      'T2 (°C)',
      'T3 (°C)',
      ...(rinse === undefined ? [] : ['conductivity (µS/cm)']),
    ],
  ]
  const end = 300 + plateauSeconds
  for (let second = 0; second <= end + 300; second += 1) {
    if (drop(second)) continue
    const stage = second < 200 ? 'wash' : second < 300 ? 'rinse' : second <= end ? 'disinfection' : 'drying'
    const celsius = second < 300 ? 40 + 5 * Math.sin(second / 30) : second <= end ? plateauC : 112 - Math.sin(second)
    const cold = stuckAt !== undefined && second >= stuckAt ? 91 : celsius - coldestBelowK
    const cells = [
      second,
      ...(stages ? [stage] : []),
      celsius.toFixed(3),
      cold.toFixed(3),
      (celsius - coldestBelowK / 2).toFixed(3),
    ]
    rows.push([...cells, ...(rinse === undefined ? [] : [rinse.toFixed(2)])].map(String))
  }
  return rows.map((row) => row.join(';')).join('\n')
}

function read(truth: Truth, asked: WasherProgram = program): WasherCycleReading {
  const result = readWasherCycles({ log: logOf(truth), program: asked })
  assert.equal(result.kind, 'read', JSON.stringify(result))
  const [reading] = result.kind === 'read' ? result.cycles : []
  assert.ok(reading)
  return reading
}

test('A0 is that of the coldest channel and leaves the drying out, over random plateaus', () => {
  holds(
    property(integer({ min: 905, max: 945 }), integer({ min: 70, max: 400 }), boolean(), (tenths, length, stages) => {
      const plateauC = tenths / 10
      const reading = read({ plateauC, plateauSeconds: length, stages })
      const truth = length * 10 ** ((plateauC - 0.4 - 80) / 10)
      assert.equal(reading.coldestChannel, 'T2 (°C)')
      // The step of one second into the plateau counts in part.
      const step = 10 ** ((plateauC - 80) / 10)
      assert.ok(Math.abs((reading.a0Seconds ?? 0) - truth) <= step, `${reading.a0Seconds} against ${truth}`)
      assert.ok((reading.a0WithDryingSeconds ?? 0) > 2 * truth)
      assert.equal(reading.verdict, truth >= 600 + step && plateauC - 0.4 >= 90 ? 'met' : reading.verdict)
    }),
    { numRuns: 25, seed: 11 },
  )
})

test('too cool and too short are not met', () => {
  assert.equal(read({ plateauC: 92, plateauSeconds: 30 }).verdict, 'notMet')
  assert.equal(read({ plateauC: 85, plateauSeconds: 400 }).criteria.find(({ id }) => id === 'band')?.result, 'notMet')
})

test('a hole in the disinfection, a stuck channel and a cut log are not evaluable', () => {
  const hole = read({ plateauC: 91, plateauSeconds: 80, drop: (second) => second > 320 && second < 365 })
  assert.equal(hole.verdict, 'notEvaluable')
  const stuck = read({ plateauC: 93.5, plateauSeconds: 80, stuckAt: 240 })
  assert.ok(stuck.findings.some(({ rule }) => rule === 'stuck-sensor'))
  assert.notEqual(stuck.verdict, 'met')
  const cut = readWasherCycles({
    log: logOf({ plateauC: 91, plateauSeconds: 300 }).split('\n').slice(0, 335).join('\n'),
    program,
  })
  assert.equal(cut.kind === 'read' && cut.cycles[0]?.verdict, 'notEvaluable')
})

test('the last rinse is judged when the programme asks, and is not evaluable without its column', () => {
  const asked = { ...program, mostConductivityMicroSPerCm: 30 }
  const truth = { plateauC: 93, plateauSeconds: 100 }
  assert.equal(read({ ...truth, rinse: 12 }, asked).verdict, 'met')
  assert.equal(read({ ...truth, rinse: 45 }, asked).verdict, 'notMet')
  assert.equal(read(truth, asked).verdict, 'notEvaluable')
})

test('two cycles in a file are read one by one', () => {
  const one = logOf({ plateauC: 93, plateauSeconds: 100 }).split('\n')
  const later = one.slice(1).map((row) => {
    const [second, ...rest] = row.split(';')
    return [Number(second) + 1000, ...rest].join(';')
  })
  const result = readWasherCycles({ log: [...one, ...later].join('\n'), program })
  assert.equal(result.kind === 'read' && result.cycles.length, 2)
  assert.deepEqual(result.kind === 'read' && result.cycles.map(({ verdict }) => verdict), ['met', 'met'])
})

test('a log that names no stages and never enters the band has no A0, since drying cannot be told from it', () => {
  const reading = read({ plateauC: 82, plateauSeconds: 700, stages: false })
  assert.equal(reading.a0Seconds, null)
  assert.equal(reading.criteria.find(({ id }) => id === 'a0')?.result, 'notEvaluable')
})
