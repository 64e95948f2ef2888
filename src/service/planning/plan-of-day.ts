import type { Instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import { caseReminders } from '#road/planning/case-reminders.ts'
import type { DayFacts } from '#road/planning/day-facts.ts'
import { type DayInstance, instanceOfDay, listSubject } from '#road/planning/instance-of-day.ts'
import { orderOfList } from '#road/planning/sources.ts'
import { subjectKey } from '#road/subject.ts'
import type { GivenOrder } from '#workings/planning/follow-order.ts'
import type { PlanSchedule } from '#workings/planning/plan-schedule.ts'
import type { RecordContext } from '../context.ts'
import { type PlanChart, planChart } from './plan-chart.ts'
import type { PlannedCase, PlanOfDay } from './plan-answer.ts'
import { planInBackground } from './plan-in-background.ts'
import type { PlanTask, PlanWork } from './plan-work.ts'
import { readDay } from './read-day.ts'

/** What is asked about a day. */
export interface PlanAsked {
  readonly seconds: number
  readonly seed?: number | undefined
  readonly order?: GivenOrder | undefined
  readonly locks?:
    | readonly { readonly case: string; readonly theatre?: string | undefined; readonly start?: number | undefined }[]
    | undefined
  readonly replan?: boolean | undefined
  /** Ends the work: nobody waits for the answer. */
  readonly signal?: AbortSignal | undefined
}

type Context = Pick<RecordContext, 'reader' | 'compute'>

/** Makes the instance of a day from the record, and has it planned where no request waits for it. */
export async function planOfDay(context: Context, day: string, now: Instant, asked: PlanAsked): Promise<PlanOfDay> {
  const { reader, compute } = context
  const facts = await readDay(reader, day, now)
  const made = withLocks(instanceOfDay(facts), asked.locks ?? [])
  const kept = (await reader.known([listSubject(day)])).get(listSubject(day)) ?? null
  const { instance } = made
  const seed = asked.seed ?? 1
  const { signal, seconds } = asked
  const plan =
    instance === null || signal?.aborted === true ? null : await planInBackground(instance, { seed, seconds, signal })
  const done =
    instance === null || plan === null || signal?.aborted === true
      ? null
      : await explained(compute, {
          instance,
          plan,
          seed,
          order: asked.order,
          kept: asked.replan === true ? keptCases(kept, made) : undefined,
        })
  const shown = done?.given?.schedule ?? done?.replanned?.schedule ?? plan?.schedule ?? null
  const chart = (schedule: PlanSchedule | null | undefined): PlanChart | null =>
    instance === null || !schedule ? null : planChart({ ...made, instance }, schedule)
  return {
    day,
    timeZone: facts.unit.timeZone,
    startsAt: made.clock.instantOf(0),
    nowMinute: made.clock.minuteOf(now),
    instance,
    findings: made.findings,
    cases: await casesOf(reader, facts, made, shown),
    units: made.units,
    begun: made.begun,
    plan,
    why: done?.why ?? null,
    given: done?.given ?? null,
    replanned: done?.replanned ?? null,
    charts: {
      plan: chart(plan?.schedule),
      given: chart(done?.given?.schedule),
      replanned: chart(done?.replanned?.schedule),
    },
    kept,
    orderSource: orderOfList,
  }
}

async function explained(compute: Context['compute'], about: PlanTask): Promise<PlanWork> {
  const answer = await compute.run({ kind: 'explainPlan', about })
  if (answer.kind !== 'explained') throw new Error(`an explanation was asked for, and ${answer.kind} came`)
  return answer.work
}

/** Places that are tried fixed for this question only; what is to stay is recorded as case-locked. */
function withLocks(made: DayInstance, locks: NonNullable<PlanAsked['locks']>): DayInstance {
  if (made.instance === null || locks.length === 0) return made
  const cases = made.instance.cases.map((one) => {
    const lock = locks.find((each) => each.case === one.id)
    if (lock === undefined) return one
    const known = made.instance?.theatres.some(({ id }) => id === lock.theatre) === true
    return {
      ...one,
      ...(known && lock.theatre !== undefined ? { theatres: [lock.theatre] } : {}),
      ...(lock.start === undefined ? {} : { earliest: lock.start, latest: lock.start }),
    }
  })
  return { ...made, instance: { ...made.instance, cases } }
}

/** The kept plan as far as its cases still wait; without one, the booked times. */
function keptCases(kept: KnownOf<'list'> | null, { cases, clock, instance }: DayInstance): PlanSchedule['cases'] {
  const waiting = new Set(instance?.cases.map(({ id }) => id))
  const rows = kept?.plan?.cases ?? []
  const known = rows.map(
    (row) => [subjectKey(row.case), { theatre: row.theatre, start: clock.minuteOf(row.startAt) }] as const,
  )
  const booked = cases.map(
    ({ plan, bookedTheatre, bookedAt }) =>
      [plan.id, { theatre: bookedTheatre, start: clock.minuteOf(bookedAt) }] as const,
  )
  const all = rows.length > 0 ? known : booked
  return Object.fromEntries(all.filter(([id]) => waiting.has(id)))
}

async function casesOf(
  reader: Context['reader'],
  { cases, policy }: DayFacts,
  made: DayInstance,
  shown: PlanSchedule | null,
): Promise<readonly PlannedCase[]> {
  const people = await reader.known([
    ...new Set(cases.flatMap(({ booked }) => (booked === null ? [] : [booked.surgeon]))),
  ])
  return made.cases.flatMap((one) => {
    const known = cases.find(({ id }) => id === one.id)
    const booked = known?.booked
    if (known === undefined || booked === null || booked === undefined) return []
    const start = shown?.cases[one.plan.id]?.start ?? made.clock.minuteOf(booked.plannedAt)
    return [
      {
        id: one.plan.id,
        case: one.id,
        patient: booked.patient,
        procedure: booked.procedure,
        surgeonName: people.get(booked.surgeon)?.name ?? subjectKey(booked.surgeon),
        bookedTheatre: booked.theatre,
        bookedStart: made.clock.minuteOf(booked.plannedAt),
        minutes: one.minutes,
        needsFrom: one.needsFrom,
        locked: known.locked?.theatre !== undefined || known.locked?.startAt !== undefined,
        reminders: caseReminders(known, { start, end: start + one.plan.dur }, policy),
      },
    ]
  })
}
