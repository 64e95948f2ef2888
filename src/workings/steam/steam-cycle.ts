import { z } from 'zod'
import { describeProblem, problemsOf } from '#units/problem.ts'
import { SaturationEquation } from '../physics/saturation-line.ts'
import { exactPieceSource, f0Source, if97Source } from '../physics/sources.ts'
import { defineWorking, type Working, type WorkingResult } from '../working.ts'
import { exampleInput, exampleOutput } from './example.ts'
import { SteamLogMap } from './log-map.ts'
import { SteamProgram } from './program.ts'
import { steamPrograms } from './programs.ts'
import { readSteamCycles } from './read-steam-cycles.ts'
import { SteamCycleReading } from './reading.ts'
import { algorithmSource, largeChamberSource, ruleSources } from './sources.ts'

const Input = z.strictObject({
  log: z.string().min(1).describe('the text of the log: delimited, with a header line'),
  program: z
    .union([z.enum(steamPrograms.map(({ key }) => key)), SteamProgram])
    .describe('a programme of the policy by its key, or a programme in full'),
  map: SteamLogMap.optional().describe('which column is what; without it the header names decide'),
  volumeLitres: z.number().positive().optional().describe('chamber volume instead of that of the programme, L'),
  cycle: z.number().int().min(1).optional().describe('one cycle of several, from 1'),
  fReferenceC: z.number().min(100).max(150).default(121).describe('reference temperature of F, °C'),
  zK: z.number().min(5).max(20).default(10).describe('z of F, K'),
  equation: SaturationEquation.default('if97').describe('equation of the saturation line'),
})
type Input = z.infer<typeof Input>

const Output = z
  .union([SteamCycleReading, z.array(SteamCycleReading)])
  .describe('one reading, or a list when the log has several cycles and none was chosen')

/** One reading stands alone; several come as a list. */
function shaped(cycles: readonly SteamCycleReading[]): SteamCycleReading | SteamCycleReading[] {
  const [only] = cycles
  return only !== undefined && cycles.length === 1 ? only : [...cycles]
}

const reader = defineWorking({
  id: 'steam-cycle',
  title: 'Reader of a logged steam cycle',
  group: 'physics',
  method:
    'The plateau starts at the first sample at which the reference is at the sterilisation temperature T. Equilibration ends when the ' +
    'reference and all loads are; the holding time is the longest run in which none is below T, and a dip starts it again. Over the ' +
    'holding time the temperatures and the saturation temperature at the logged pressure must stay within T to T + band and within ' +
    'the greatest difference of each other. Each reading is judged with half a step of the logger either way and with its noise: what ' +
    'that leaves open is not evaluable. F is integrated exactly over straight pieces of the coldest channel above 100 degC; its base is ' +
    '121.0 degC unless another is given, since on 121.1 degC the standard 121 degC, 15 min cycle shows only 14.66 min.',
  validity:
    'The log shows the places where its sensors are. Without load sensors equilibration is not evaluable, and 5 % air at 134 degC stays ' +
    'inside the 2 K window. Gaps of up to 30 s are taken as straight; a logger that cuts digits off instead of rounding is off by half a step. ' +
    'This is an aid to trained staff; the maker’s instructions and local regulation decide.',
  sources: [
    algorithmSource,
    ...new Set(Object.values(ruleSources)),
    largeChamberSource,
    if97Source,
    f0Source,
    exactPieceSource,
  ],
  input: Input,
  output: Output,
  example: { input: exampleInput, output: exampleOutput },
  work: (input: Input) => {
    const result = readSteamCycles(input)
    if (result.kind === 'unusable') throw new RangeError(describeProblem(result.problem))
    return shaped(result.cycles)
  },
})

/** The reader as a working: a log that cannot be read is an unusable input, like one that breaks the schema. */
export const steamCycleWorking: Working = Object.freeze({
  ...reader,
  run(raw: unknown): WorkingResult {
    const parsed = Input.safeParse(raw)
    if (!parsed.success) return { kind: 'unusable', problems: problemsOf(parsed.error, raw) }
    const result = readSteamCycles(parsed.data)
    if (result.kind === 'unusable') return { kind: 'unusable', problems: [result.problem] }
    return { kind: 'output', output: shaped(result.cycles) }
  },
})
