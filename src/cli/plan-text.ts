import { minuteAsClock } from '#workings/planning/minute-as-clock.ts'
import type { BackgroundAnswer } from '#service/planning/plan-in-background.ts'
import type { PlanInstance } from '#workings/planning/instance.ts'
import { reasonsOf } from './plan-reasons.ts'

const orderPolicy =
  'The order by wound class is custom with weak evidence: your unit’s policy, not a law. Times count from the start of the planned day.'

/** A plan for people: what it costs, how good it is, the lists of the theatres, the way of each set; or why there is none. */
export function planAsText(day: PlanInstance, answer: BackgroundAnswer): string {
  if (answer.schedule === null) {
    const head =
      answer.status === 'infeasible'
        ? 'There is no plan for this day.'
        : 'No plan was found; it is not proven that there is none.'
    return [head, '', ...reasonsOf(answer).map((reason) => `  ${reason}`), ''].join('\n')
  }
  const { objective, schedule } = answer
  return [
    `Inversions ${objective.inversions}, overtime ${objective.overtime} min, theatres occupied ${objective.occupied} min: ${howGood(answer)}`,
    ...day.theatres.flatMap(({ id, close }) => [
      '',
      `${id} (closes ${minuteAsClock(close)})`,
      ...listOf(day, answer, id),
    ]),
    '',
    'Made sterile again',
    ...schedule.uses
      .toSorted((a, b) => (a.job?.ready ?? 0) - (b.job?.ready ?? 0))
      .flatMap(({ case: one, type, unit, job }) =>
        job === undefined
          ? []
          : [
              `  ${type} ${unit + 1} after ${one}, ${job.route}: ${job.steps.map((step) => `${step.name} ${minuteAsClock(step.start)}`).join(', ')}; ready ${minuteAsClock(job.ready)}`,
            ],
      ),
    '',
    'How far better plans can be ruled out',
    ...reasonsOf(answer).map((reason) => `  ${reason}`),
    '',
    orderPolicy,
    '',
  ].join('\n')
}

function howGood({
  status,
  objective,
  bound,
}: Extract<BackgroundAnswer, { readonly status: 'optimal' | 'feasible' }>): string {
  if (status === 'optimal') return 'optimal, no plan is better'
  if (objective.inversions > bound.inversions) return `no plan can have fewer than ${bound.inversions} inversions`
  const overtime = objective.overtime - bound.overtime
  if (overtime > 0) return `no plan can have more than ${overtime} min less overtime`
  return `no plan can occupy the theatres more than ${objective.occupied - bound.occupied} min less`
}

function listOf(
  day: PlanInstance,
  { schedule }: Extract<BackgroundAnswer, { readonly status: 'optimal' | 'feasible' }>,
  theatre: string,
): readonly string[] {
  return day.cases
    .flatMap((one) => {
      const placed = schedule.cases[one.id]
      return placed?.theatre === theatre ? [{ one, start: placed.start }] : []
    })
    .sort((a, b) => a.start - b.start)
    .map(({ one, start }) => {
      const sets = schedule.uses.filter((use) => use.case === one.id).map(({ type, unit }) => `${type} ${unit + 1}`)
      return `  ${minuteAsClock(start)} to ${minuteAsClock(start + one.dur)}  ${one.id} (${one.surgeon}): ${sets.join(', ')}`
    })
}
