import { z } from 'zod'
import { describeProblem, problemsOf } from '#units/problem.ts'
import { defineWorking, type Working, type WorkingResult } from '../working.ts'
import { gasExampleInput, gasExampleOutput } from './example.ts'
import { GasLogMap } from './gas-map.ts'
import { gasPrograms, GasProgram, ownProgramSource } from './gas-program.ts'
import { GasCycleReading, readGasCycle } from './read-gas-cycle.ts'

const Input = z.strictObject({
  log: z.string().min(1).describe('the text of the log: delimited, with a header line'),
  program: z
    .union([z.enum(gasPrograms.map(({ key }) => key)), GasProgram])
    .describe('a programme by its key, or a programme in full'),
  map: GasLogMap.optional().describe('which column is what; without it the header names decide'),
})

const reader = defineWorking({
  id: 'gas-cycle',
  title: 'Reader of a logged gas or dry heat cycle',
  group: 'physics',
  method:
    'Each sample of each variable is inside its window, outside, or not known (missing, stuck, or within half a step of the logger from the edge). ' +
    'The exposure is the longest unbroken run in which every variable is inside for certain; the run it could be at most takes what is not known as ' +
    'inside. The exposure is met when the certain run is long enough, not met when even the possible one is too short, otherwise not evaluable.',
  validity:
    'It judges the record, not the kill: spores, indicators and, for ethylene oxide, the aeration decide as well. A variable of the programme ' +
    'that was not logged is never met. A window of the machine comes with the machine.',
  sources: [ownProgramSource, ...new Set(gasPrograms.map(({ source }) => source))],
  input: Input,
  output: GasCycleReading,
  example: {
    input: gasExampleInput,
    output: gasExampleOutput,
  },
  work: (input) => {
    const result = readGasCycle(input)
    if (result.kind === 'unusable') throw new RangeError(describeProblem(result.problem))
    return result.reading
  },
})

/** The reader as a working: a log that cannot be read is an unusable input, like one that breaks the schema. */
export const gasCycleWorking: Working = Object.freeze({
  ...reader,
  run(raw: unknown): WorkingResult {
    const parsed = Input.safeParse(raw)
    if (!parsed.success) return { kind: 'unusable', problems: problemsOf(parsed.error, raw) }
    const result = readGasCycle(parsed.data)
    if (result.kind === 'unusable') return { kind: 'unusable', problems: [result.problem] }
    return { kind: 'output', output: result.reading }
  },
})
