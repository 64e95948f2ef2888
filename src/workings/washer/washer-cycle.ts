import { z } from 'zod'
import { describeProblem, problemsOf } from '#units/problem.ts'
import { a0FloorSource, a0Source, exactPieceSource } from '../physics/sources.ts'
import { defineWorking, type Working, type WorkingResult } from '../working.ts'
import { washerExampleInput, washerExampleOutput } from './example.ts'
import { readWasherCycles, WasherCycleReading } from './read-washer-cycles.ts'
import { WasherLogMap } from './washer-map.ts'
import { bandRule, rinseRule, washerPrograms, WasherProgram } from './washer-program.ts'

const Input = z.strictObject({
  log: z.string().min(1).describe('the text of the log: delimited, with a header line'),
  program: z
    .union([z.enum(washerPrograms.map(({ key }) => key)), WasherProgram])
    .describe('a programme by its key, or a programme in full'),
  map: WasherLogMap.optional().describe('which column is what; without it the header names decide'),
  cycle: z.number().int().min(1).optional().describe('one cycle of several, from 1'),
})

const Output = z
  .union([WasherCycleReading, z.array(WasherCycleReading)])
  .describe('one reading, or a list when the log has several cycles and none was chosen')

/** One reading stands alone; several come as a list. */
function shaped(cycles: readonly WasherCycleReading[]): WasherCycleReading | WasherCycleReading[] {
  const [only] = cycles
  return only !== undefined && cycles.length === 1 ? only : [...cycles]
}

const reader = defineWorking({
  id: 'washer-cycle',
  title: 'Reader of a logged washer-disinfector cycle',
  group: 'physics',
  method:
    'A0 of every temperature channel is integrated exactly over straight pieces at or above 65 degC, from the start of the cycle to the end of ' +
    'the disinfection; the coldest channel decides. Drying never counts: it begins where the log names it, and without names the count ends ' +
    'where the channels leave the band. The band asks that all channels stay in it together without a break. Half a step of the logger either ' +
    'way, stuck channels and gaps leave open what they hide, and what is open is not evaluable.',
  validity:
    'The log shows the places where its sensors are. A0 says nothing of cleaning: soil left on an instrument protects what is under it.',
  sources: [a0Source, a0FloorSource, bandRule, rinseRule, exactPieceSource],
  input: Input,
  output: Output,
  example: { input: washerExampleInput, output: washerExampleOutput },
  work: (input) => {
    const result = readWasherCycles(input)
    if (result.kind === 'unusable') throw new RangeError(describeProblem(result.problem))
    return shaped(result.cycles)
  },
})

/** The reader as a working: a log that cannot be read is an unusable input, like one that breaks the schema. */
export const washerCycleWorking: Working = Object.freeze({
  ...reader,
  run(raw: unknown): WorkingResult {
    const parsed = Input.safeParse(raw)
    if (!parsed.success) return { kind: 'unusable', problems: problemsOf(parsed.error, raw) }
    const result = readWasherCycles(parsed.data)
    if (result.kind === 'unusable') return { kind: 'unusable', problems: [result.problem] }
    return { kind: 'output', output: shaped(result.cycles) }
  },
})
