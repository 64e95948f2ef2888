import { z } from 'zod'
import type { Sureness } from '../logs/sure-run.ts'
import type { SteamPin } from '../steam/pins.ts'
import { at, figure } from '../steam/series.ts'
import { isUnusable, type Unusable } from '../steam/unusable.ts'
import { type GasLog, gasNames } from './gas-criteria.ts'
import { gasProgramByKey, type GasProgram, gasVariables } from './gas-program.ts'
import { believedGasLog, type GasCycleRequest, gasLogOf, statesOf } from './read-gas-cycle.ts'

const Seconds = z.object({ startSeconds: z.number(), endSeconds: z.number() })

/** One curve of a gas or dry heat log beside the window that its programme asks; null where none is asked. */
export const GasLine = z.object({
  name: z.string(),
  variable: z.enum(gasVariables),
  unit: z.string(),
  values: z.array(z.number().nullable()),
  from: z.number().nullable(),
  to: z.number().nullable(),
})
export type GasLine = z.infer<typeof GasLine>

export interface GasChart {
  readonly seconds: readonly number[]
  readonly lines: readonly GasLine[]
  readonly phases: readonly (z.infer<typeof Seconds> & { readonly phase: string })[]
  readonly pins: readonly SteamPin[]
}

/** The curves of a gas or dry heat log, thinned, with the machine's own stages and each leaving of a window. */
export function gasChart(request: GasCycleRequest, points = 1500): GasChart | Unusable {
  const read = gasLogOf(request)
  if (isUnusable(read)) return read
  const program = typeof request.program === 'string' ? gasProgramByKey(request.program)?.program : request.program
  const log = program === undefined ? read : believedGasLog(read, program)
  const step = Math.max(1, Math.ceil(log.seconds.length / points))
  const kept = Array.from(log.seconds.keys()).filter((place) => place % step === 0)
  return {
    seconds: kept.map((place) => at(log.seconds, place)),
    // What a stuck sensor wrote is shown as it was written; the findings say that it is not believed.
    lines: read.channels.map(({ name, role, values }) => {
      const window = program?.windows.find(({ variable }) => variable === role)
      return {
        name,
        variable: role,
        unit: gasNames[role].unit,
        values: kept.map((place) => figure(at(values, place))),
        from: window?.from ?? null,
        to: window?.to ?? null,
      }
    }),
    phases: stagesOf(log),
    pins: program === undefined ? [] : pinsOf(log, program),
  }
}

/** Runs of the same word in the column of stages. */
function stagesOf({ words, seconds }: GasLog): GasChart['phases'] {
  const stages: { phase: string; startSeconds: number; endSeconds: number }[] = []
  for (const [place, phase] of (words ?? []).entries()) {
    const last = stages.at(-1)
    const second = at(seconds, place)
    if (last !== undefined) last.endSeconds = second
    if (phase !== '' && last?.phase !== phase) stages.push({ phase, startSeconds: second, endSeconds: second })
  }
  return stages
}

/**
 * Where a variable left its window and came back, and the whole time of one that was never in it while all the others were.
 * Before its first and after its last moment inside, a variable is on its way, and nothing is wrong.
 */
function pinsOf(log: GasLog, program: GasProgram): readonly SteamPin[] {
  const states = program.windows.map((window) => statesOf(log, window))
  return program.windows
    .flatMap((window, place) => {
      const own = states[place] ?? []
      const others = states.filter((_, other) => other !== place)
      const inside = own.includes('in')
        ? own
        : own.map((_, index): Sureness => (others.every((each) => each[index] === 'in') ? 'in' : 'out'))
      const [first, last] = [inside.indexOf('in'), inside.lastIndexOf('in')]
      if (first < 0) return []
      const { title, unit } = gasNames[window.variable]
      const wanted = [window.from ?? '', window.to ?? ''].join(' to ')
      return stretches(own, first, last).map(({ from, to }): SteamPin => ({
        fromSeconds: at(log.seconds, from),
        toSeconds: at(log.seconds, to),
        weight: 'stop',
        says: `${title} outside its window, ${wanted} ${unit}, until ${minutes(at(log.seconds, to))} min`,
      }))
    })
    .sort((a, b) => a.fromSeconds - b.fromSeconds)
}

function minutes(seconds: number): string {
  return (seconds / 60).toFixed(1)
}

function stretches(states: readonly Sureness[], first: number, last: number): { from: number; to: number }[] {
  const found: { from: number; to: number }[] = []
  for (let index = first; index <= last; index += 1) {
    if (states[index] !== 'out') continue
    const open = found.at(-1)
    if (open?.to === index - 1) open.to = index
    else found.push({ from: index, to: index })
  }
  return found
}
