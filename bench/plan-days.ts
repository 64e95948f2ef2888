import { PlanInstance } from '#workings/planning/instance.ts'
import { type SeededGenerator, seededGenerator } from '#workings/statistics/special/seeded-generator.ts'

/** Sizes of the days that the planner is measured on: theatres and cases in each. */
export const dayClasses = { '1 × 6': [1, 6], '2 × 6': [2, 6], '4 × 8': [4, 8] } as const
export type DayClass = keyof typeof dayClasses

/**
 * An invented day of one class; the same seed gives the same day. Lists fill their theatres about to the close, and there are
 * sets for a good half of the uses, so that what is used in the morning has to come back for the afternoon.
 */
export function seededDay(kind: DayClass, seed: number): PlanInstance {
  const [theatres, each] = dayClasses[kind]
  const dice = seededGenerator(seed * 7919 + theatres)
  const cases = Array.from({ length: theatres }, (_, theatre) => listOf(dice, theatre, { theatres, each })).flat()
  const types = theatres === 1 ? ['LAP', 'OPT', 'CAB'] : ['LAP', 'OPT', 'CAB', 'CLIP']
  return PlanInstance.parse({
    name: `${kind} ${seed}`,
    horizon: 960,
    theatres: Array.from({ length: theatres }, (_, index) => ({
      id: `T${index + 1}`,
      open: 30,
      close: 510,
      hardClose: 840,
    })),
    turnover: { standard: 15, dirty: 30, infectious: 45 },
    surgeonGap: 0,
    cases,
    setTypes: types.map((id) => {
      const uses = cases.reduce((sum, { needs }) => sum + (needs[id] ?? 0), 0)
      const atOnce = Math.max(...cases.map(({ needs }) => needs[id] ?? 0))
      const units = Math.max(atOnce, 1, Math.round(uses * (0.48 + dice.next() * 0.14)))
      return {
        id,
        units,
        size: id === 'LAP' ? 2 : 1,
        lead: 10,
        routes: id === 'OPT' ? ['gas', 'steamFine'] : ['steam'],
      }
    }),
    routes: {
      steam: [
        delay('soak', 10),
        staff('manual', 'bench', 15),
        batch('wash', 'washer'),
        staff('pack', 'pack', 15),
        batch('steam', 'steam'),
        delay('cool', 15),
      ],
      steamFine: [
        delay('soak', 10),
        staff('manual', 'bench', 20),
        staff('pack', 'pack', 10),
        batch('steam', 'steam'),
        delay('cool', 15),
      ],
      gas: [delay('soak', 10), staff('manual', 'bench', 20), staff('pack', 'pack', 10), batch('gas', 'gas')],
    },
    pools: [
      { id: 'bench', kind: 'staff', count: Math.max(1, theatres - 1 + (theatres === 2 ? 1 : 0)), from: 0, to: 840 },
      { id: 'pack', kind: 'staff', count: Math.ceil(theatres / 2), from: 0, to: 840 },
      { id: 'washer', kind: 'batch', count: 2, cap: theatres > 2 ? 6 : 4, dur: 45, from: 0, to: 840 },
      { id: 'steam', kind: 'batch', count: theatres > 2 ? 2 : 1, cap: 6, dur: 60, from: 0, to: 900 },
      { id: 'gas', kind: 'batch', count: 1, cap: theatres > 2 ? 4 : 2, dur: 50, from: 0, to: 900 },
    ],
  })
}

const wounds = [
  'clean',
  'clean',
  'clean-contaminated',
  'clean-contaminated',
  'clean-contaminated',
  'contaminated',
  'dirty',
] as const

/** The list of one theatre: durations in steps of five minutes that fill its hours about. */
function listOf(
  dice: SeededGenerator,
  theatre: number,
  { theatres, each }: { readonly theatres: number; readonly each: number },
) {
  const shares = Array.from({ length: each }, () => 0.5 + dice.next())
  const minutes = 480 - each * 20
  const total = shares.reduce((sum, share) => sum + share, 0)
  return shares.map((share, index) => {
    const wound = pick(dice, wounds)
    const other = theatres > 1 && dice.next() < 0.5 ? [`T${((theatre + 1) % theatres) + 1}`] : []
    return {
      id: `C${theatre + 1}${String.fromCharCode(97 + index)}`,
      dur: Math.max(20, Math.round((minutes * share) / total / 5) * 5),
      wound,
      implant: wound === 'clean' && dice.next() < 0.4,
      infectious: dice.next() < 0.08,
      surgeon: `S${theatre + 1}${index < each / 2 ? 'x' : 'y'}`,
      theatres: [`T${theatre + 1}`, ...other],
      needs: needsOf(dice, wound, theatres),
    }
  })
}

function needsOf(
  dice: SeededGenerator,
  wound: (typeof wounds)[number],
  theatres: number,
): Readonly<Record<string, number>> {
  const short = wound === 'clean' && dice.next() < 0.5
  return {
    LAP: dice.next() < 0.2 ? 2 : 1,
    OPT: 1,
    ...(short ? {} : { CAB: 1 }),
    ...(theatres > 1 && wound === 'clean-contaminated' && dice.next() < 0.6 ? { CLIP: 1 } : {}),
  }
}

function pick<Value>(dice: SeededGenerator, from: readonly [Value, ...Value[]]): Value {
  return from[dice.below(from.length)] ?? from[0]
}

const delay = (name: string, dur: number) => ({ name, kind: 'delay', dur })
const staff = (name: string, pool: string, dur: number) => ({ name, kind: 'staff', pool, dur })
const batch = (name: string, pool: string) => ({ name, kind: 'batch', pool })
