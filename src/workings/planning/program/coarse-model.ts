import type { PlanModel } from '../plan-model.ts'

/** A day counted in steps of several minutes. */
export interface CoarseModel {
  /** Minutes of one step. */
  readonly step: number
  /** The day with its times in steps. What is a limit from above is rounded down. */
  readonly model: PlanModel
  /** Theatres in steps; `close` stays in minutes, since overtime is counted from it. */
  readonly theatres: readonly { readonly open: number; readonly close: number; readonly hardClose: number }[]
  readonly surgeonGap: number
}

/**
 * Counts the day in the greatest step that divides everything that lasts or that something waits for. Nothing is lost: with
 * its order kept, every plan can be moved to the left until each start follows from such times alone, which breaks no limit
 * from above and makes no objective worse.
 */
export function coarseModel(model: PlanModel): CoarseModel {
  const step = stepOf(model)
  const down = (minutes: number): number => (Number.isFinite(minutes) ? Math.floor(minutes / step) : minutes)
  return {
    step,
    surgeonGap: model.day.surgeonGap / step,
    theatres: model.day.theatres.map(({ open, close, hardClose }) => ({
      open: open / step,
      close,
      hardClose: down(hardClose),
    })),
    model: {
      ...model,
      cases: model.cases.map((one) => ({
        ...one,
        dur: one.dur / step,
        turnover: one.turnover / step,
        earliest: one.earliest / step,
        latest: down(one.latest),
      })),
      types: model.types.map((type) => ({
        ...type,
        lead: type.lead / step,
        avail: type.avail.map((at) => at / step),
        routes: type.routes.map((route) => route.map(({ pool, dur }) => ({ pool, dur: dur / step }))),
      })),
      pools: model.pools.map((pool) => ({
        ...pool,
        dur: pool.dur / step,
        from: pool.from / step,
        to: down(pool.to),
      })),
    },
  }
}

function stepOf({ day, cases, types, pools }: PlanModel): number {
  const lasting = [
    day.surgeonGap,
    ...day.theatres.map(({ open }) => open),
    ...cases.flatMap(({ dur, turnover, earliest }) => [dur, turnover, earliest]),
    ...types.flatMap(({ lead, avail, routes }) => [lead, ...avail, ...routes.flat().map(({ dur }) => dur)]),
    ...pools.flatMap(({ dur, from }) => [dur, from]),
  ]
  return Math.max(1, lasting.reduce(commonDivisor, 0))
}

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b)
}
