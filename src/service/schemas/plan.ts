import { z } from 'zod'
import { Source } from '#units/source.ts'
import { Finding } from '#road/finding.ts'
import { Instant } from '#road/instant.ts'
import { subjectOf } from '#road/subject.ts'

const Minute = z.number()
const Objective = z.object({ inversions: z.number(), overtime: z.number(), occupied: z.number() })
const Run = z.object({
  name: z.string(),
  start: Minute,
  end: Minute,
  pool: z.string().optional(),
  machine: z.int().optional(),
})
const Schedule = z.object({
  cases: z.record(z.string(), z.object({ theatre: z.string(), start: Minute })),
  uses: z.array(
    z.object({
      case: z.string(),
      type: z.string(),
      unit: z.int(),
      job: z.object({ route: z.string(), steps: z.array(Run), ready: Minute }).optional(),
    }),
  ),
})
const Why = z.object({
  slacks: z.array(
    z.object({
      case: z.string(),
      type: z.string(),
      unit: z.int(),
      sterileAt: Minute,
      neededAt: Minute,
      slack: Minute,
      after: z.string().nullable(),
    }),
  ),
  holds: z.array(
    z.object({
      case: z.string(),
      by: z.enum(['opening', 'earliest', 'theatre', 'surgeon', 'set', 'order']),
      what: z.string(),
      waited: Minute,
      says: z.string(),
    }),
  ),
  binding: z.object({
    kind: z.enum(['set', 'pool', 'surgeon', 'theatres']),
    what: z.string(),
    minutes: Minute,
    says: z.string(),
  }),
  others: z
    .array(
      z.object({
        case: z.string(),
        theatre: z.string(),
        place: z.int(),
        start: Minute.nullable(),
        breaks: z.array(z.string()),
        costs: Objective,
        better: z.boolean(),
      }),
    )
    .nullable(),
})
const Change = z.object({
  case: z.string(),
  kind: z.enum(['added', 'gone', 'moved', 'later', 'earlier']),
  minutes: Minute,
  says: z.string(),
})
const Followed = z.object({
  schedule: Schedule,
  objective: Objective,
  broken: z.array(z.string()),
  never: z.array(z.string()),
  why: Why.nullable(),
})
const Bar = z.object({
  kind: z.enum(['case', 'turnover', 'running', 'over', 'use', 'step', 'ready', 'run']),
  label: z.string(),
  start: Minute,
  end: Minute,
  case: z.string().nullable(),
})
const Row = z.object({ row: z.string(), bars: z.array(Bar) })
const Chart = z.object({
  theatres: z.array(Row.extend({ open: Minute, close: Minute, hardClose: Minute })),
  sets: z.array(Row.extend({ type: z.string(), unit: z.int(), set: z.string().nullable() })),
  machines: z.array(Row.extend({ pool: z.string(), kind: z.enum(['staff', 'batch']) })),
})
const Plan = z.object({
  status: z.enum(['optimal', 'feasible', 'infeasible', 'unknown']),
  objective: Objective.nullable(),
  bound: Objective.nullable(),
  schedule: Schedule.nullable(),
  /** The ladder of bounds: each rung with what it proved. */
  rungs: z.array(z.record(z.string(), z.json())),
  withoutSolver: z.string().optional(),
  reasons: z.array(z.string()).optional(),
  reliefs: z
    .array(z.object({ kind: z.enum(['fasterRoute', 'units', 'laterClose', 'withoutCase']), says: z.string() }).loose())
    .optional(),
})
const Fit = z.object({ n: z.int(), geometricMean: z.number(), logSd: z.number() })
const Case = z.object({
  id: z.string(),
  case: subjectOf('case'),
  patient: z.string(),
  procedure: z.string(),
  surgeonName: z.string(),
  bookedTheatre: z.string(),
  bookedStart: Minute,
  minutes: z.object({
    minutes: Minute,
    from: z.enum(['booking', 'surgeonAndProcedure', 'procedure', 'default']),
    fit: Fit.nullable(),
  }),
  needsFrom: z.enum(['booking', 'record', 'nothing']),
  locked: z.boolean(),
  reminders: z.array(
    z.object({
      kind: z.enum(['antibiotic', 'redose', 'implantDecision', 'allergy']),
      from: Minute.nullable(),
      to: Minute.nullable(),
      says: z.string(),
      source: Source,
    }),
  ),
})
const SetThere = z.object({ set: subjectOf('set'), name: z.string(), says: z.string() })

/** The plan of a day as the routes answer it. Minutes count from midnight where the unit is. */
export const PlanOfDayAnswer = z.object({
  day: z.string(),
  timeZone: z.string(),
  startsAt: Instant,
  nowMinute: Minute,
  instance: z.record(z.string(), z.json()).nullable(),
  findings: z.array(Finding),
  cases: z.array(Case),
  units: z.array(
    z.object({ type: z.string(), sets: z.array(SetThere.extend({ at: Minute.nullable() })), out: z.array(SetThere) }),
  ),
  begun: z.array(
    z.object({
      case: subjectOf('case'),
      theatre: z.string(),
      surgeon: z.string(),
      start: Minute,
      end: Minute,
      running: z.boolean(),
      freeAt: Minute,
      surgeonFreeAt: Minute,
    }),
  ),
  plan: Plan.nullable(),
  why: Why.nullable(),
  given: Followed.extend({ against: Objective.extend({ changes: z.array(Change) }).nullable() }).nullable(),
  replanned: Followed.extend({ changes: z.array(Change), moved: z.int(), shifted: Minute }).nullable(),
  charts: z.object({ plan: Chart.nullable(), given: Chart.nullable(), replanned: Chart.nullable() }),
  kept: z.record(z.string(), z.json()).nullable(),
  orderSource: Source,
})

const Id = z.string().min(1).max(64)

/** What may be asked of a day besides its plan. */
export const PlanAskedInput = z.strictObject({
  seconds: z.number().min(0.1).max(30).default(2),
  seed: z.int().min(0).max(4_294_967_295).optional(),
  /** An order of one's own: every case in the order of their starts, with its theatre. */
  order: z
    .array(z.strictObject({ case: Id, theatre: Id }))
    .max(300)
    .optional(),
  /** Places that are fixed for this question: minutes of the day. */
  locks: z
    .array(z.strictObject({ case: Id, theatre: Id.optional(), start: z.int().min(0).max(2880).optional() }))
    .max(300)
    .optional(),
  /** Whether the kept plan is planned again from now with the least disturbance. */
  replan: z.boolean().optional(),
})

const Mean = z.object({ mean: z.number(), standardError: z.number() })
const Chance = { share: z.number(), standardError: z.number() }

/** A plan run many times as the route answers it. */
export const SimulationAnswer = z.object({
  day: z.string(),
  status: z.enum(['optimal', 'feasible', 'none']),
  withoutSpread: z.array(z.string()),
  simulated: z
    .object({
      runs: z.int(),
      onTime: z.object(Chance),
      overtime: Mean,
      lateStarts: Mean,
      lateMinutes: Mean,
      ends: z.array(z.object({ theatre: z.string(), mean: z.number(), p90: z.number() })),
      lateSets: z.array(z.object({ case: z.string(), type: z.string(), unit: z.int(), ...Chance })),
    })
    .nullable(),
  savings: z.array(
    z.object({
      kind: z.enum(['set', 'machine', 'staff', 'fasterRoute']),
      what: z.string(),
      says: z.string(),
      minutes: Mean,
      overtimeMinutes: z.number(),
      planned: Objective,
      proven: z.boolean(),
      warning: z.string().nullable(),
    }),
  ),
})

export const SimulateInput = z.strictObject({
  runs: z.int().min(100).max(20_000).default(2000),
  /** Seconds for each plan. */
  seconds: z.number().min(0.1).max(10).default(1),
  seed: z.int().min(0).max(4_294_967_295).default(1),
  purchases: z.boolean().default(true),
  /** Minutes past the planned start from which a start counts as late. */
  lateFrom: z.number().min(0).max(240).default(15),
})
