import assert from 'node:assert/strict'
import { test } from 'node:test'
import { gasPrograms } from '#workings/gas/gas-program.ts'
import { readGasCycle } from '#workings/gas/read-gas-cycle.ts'
import { simulateGas } from '../support/simulated-gas.ts'

/* The published programmes, and a peroxide cycle whose time the unit has entered. */
const programs = [
  ...gasPrograms.flatMap(({ program }) => (program.exposureSeconds === undefined ? [] : [program])),
  ...gasPrograms.flatMap(({ program }) =>
    program.exposureSeconds === undefined ? [{ ...program, exposureSeconds: 1500 }] : [],
  ),
]

test('readGasCycle passes none of 3,000 simulated logs wrongly, and hardly fails one', (context) => {
  const cases = Array.from({ length: 3000 }, (_, index) => {
    const simulated = simulateGas(500_000 + index, programs)
    const read = readGasCycle({ log: simulated.log, program: simulated.program })
    return { ...simulated, verdict: read.kind === 'read' ? read.reading.verdict : 'unread' }
  })
  const seeds = (wanted: (each: (typeof cases)[number]) => boolean) => cases.filter(wanted).map(({ seed }) => seed)
  const falsePasses = seeds(({ truth, verdict }) => truth === 'notMet' && verdict === 'met')
  const falseFails = seeds(({ truth, verdict, close }) => truth === 'met' && verdict === 'notMet' && !close)
  const sound = cases.filter(({ truth, fault, close }) => truth === 'met' && fault === 'none' && !close)
  const undecided = sound.filter(({ verdict }) => verdict !== 'met')
  const trulyMet = cases.filter(({ truth }) => truth === 'met').length
  context.diagnostic(
    `${cases.length} logs, ${trulyMet} truly met, ${falsePasses.length} false passes, ${falseFails.length} false fails, ${undecided.length} of ${sound.length} sound logs undecided`,
  )
  assert.ok(trulyMet > 400 && cases.length - trulyMet > 400, 'both outcomes are tried')
  assert.deepEqual(falsePasses, [])
  assert.deepEqual(falseFails, [])
  assert.ok(undecided.length <= 0.02 * sound.length, `${undecided.length} of ${sound.length} undecided`)
  assert.deepEqual(
    seeds(({ verdict }) => verdict === 'unread'),
    [],
  )
})
