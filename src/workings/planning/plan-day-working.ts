import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { PlanInstance } from './instance.ts'
import { planDay } from './plan-day.ts'

const Objective = z.object({ inversions: z.int(), overtime: z.int(), occupied: z.int() })
const Run = z.object({
  name: z.string(),
  start: z.int(),
  end: z.int(),
  pool: z.string().optional(),
  machine: z.int().optional(),
})
const Use = z.object({
  case: z.string(),
  type: z.string(),
  unit: z.int(),
  job: z.object({ route: z.string(), steps: z.array(Run).readonly(), ready: z.int() }).optional(),
})
const Schedule = z.object({
  cases: z.record(z.string(), z.object({ theatre: z.string(), start: z.int() })),
  uses: z.array(Use).readonly(),
})
const Relief = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('fasterRoute'), type: z.string(), route: z.string(), says: z.string() }),
  z.object({ kind: z.literal('units'), units: z.record(z.string(), z.int()), says: z.string() }),
  z.object({ kind: z.literal('laterClose'), minutes: z.int(), says: z.string() }),
  z.object({ kind: z.literal('withoutCase'), case: z.string(), says: z.string() }),
])

const exampleDay = {
  horizon: 960,
  theatres: [{ id: 'T1', open: 30, close: 360, hardClose: 840 }],
  turnover: { standard: 15, dirty: 30, infectious: 45 },
  surgeonGap: 0,
  cases: ['C1', 'C2'].map((id) => ({
    id,
    dur: 60,
    wound: 'clean',
    implant: false,
    infectious: false,
    surgeon: 'S1',
    theatres: ['T1'],
    needs: { LAP: 1 },
  })),
  setTypes: [{ id: 'LAP', units: 1, size: 2, lead: 10, routes: ['steam'] }],
  routes: {
    steam: [
      { name: 'pack', kind: 'staff', pool: 'bench', dur: 15 },
      { name: 'steam', kind: 'batch', pool: 'steam' },
    ],
  },
  pools: [
    { id: 'bench', kind: 'staff', count: 1, from: 0, to: 840 },
    { id: 'steam', kind: 'batch', count: 1, cap: 4, dur: 60, from: 0, to: 900 },
  ],
}

/** The list planner as a working: pure, so the work is limited by decodes and not by time. */
export const planDayWorking = defineWorking({
  id: 'plan-day',
  title: 'Lists of a day, planned with the sets and the line that serve them',
  group: 'planning',
  method:
    'The day is decoded forward in time from the order of the cases, their theatres, waits, and the holds, turns and routes of the line; simulated annealing looks for choices with fewer inversions, then less overtime, then less occupied time. Bounds: the work of the theatres, and for one theatre every order of the list with the line at its best (shortest routes, no pool asked for more than it can do). Every plan passes a checker that shares no code with the search. A day without a plan gets the reasons and what would relieve it.',
  validity:
    'Minutes are taken as certain. The order by wound class is custom with weak evidence: a policy. With several theatres the bound is weak. The same seed and number of decodes give the same plan everywhere.',
  sources: [
    {
      title: 'A model of this program: flexible job shop with batch machines and sets that come back',
      status: 'proposal',
    },
    {
      title: 'Carlier, The one-machine sequencing problem, European Journal of Operational Research 11',
      edition: '1982',
      clause: 'bound by heads, work and tails',
      status: 'secondary',
    },
  ],
  input: z.strictObject({
    day: PlanInstance,
    seed: z.int().min(0).max(4_294_967_295).default(1),
    decodes: z.int().min(1).max(400_000).default(40_000).describe('how much may be searched'),
  }),
  output: z.object({
    status: z.enum(['optimal', 'feasible', 'infeasible', 'unknown']),
    objective: Objective.nullable(),
    bound: Objective.nullable(),
    schedule: Schedule.nullable(),
    reasons: z.array(z.string()).readonly().optional(),
    reliefs: z.array(Relief).readonly().optional(),
  }),
  example: {
    input: { day: exampleDay, seed: 1, decodes: 1000 },
    output: {
      status: 'optimal',
      objective: { inversions: 0, overtime: 0, occupied: 205 },
      bound: { inversions: 0, overtime: 0, occupied: 205 },
      schedule: {
        cases: { C1: { theatre: 'T1', start: 30 }, C2: { theatre: 'T1', start: 175 } },
        uses: [
          {
            case: 'C1',
            type: 'LAP',
            unit: 0,
            job: {
              route: 'steam',
              steps: [
                { name: 'pack', start: 90, end: 105, pool: 'bench', machine: 0 },
                { name: 'steam', start: 105, end: 165, pool: 'steam', machine: 0 },
              ],
              ready: 165,
            },
          },
          { case: 'C2', type: 'LAP', unit: 0 },
        ],
      },
    },
  },
  work: ({ day, seed, decodes }) => planDay(day, { seed, decodes }),
})
