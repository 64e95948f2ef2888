import { citeSource } from '#units/source.ts'
import type { PlanOfDay } from '#service/api-types.ts'
import { Table } from '../../components/Table.tsx'
import { Why } from '../../components/Why.tsx'
import { words } from '../../words/words.ts'
import { statusText } from './plan-view.ts'
import { type DayPlan, furtherSeconds } from './use-day-plan.ts'

const goals = ['inversions', 'overtime', 'occupied'] as const

/** How good the best plan is, in words first, then what it is measured by and what proves it. */
export function PlanStatus({ day, plan }: { readonly day: PlanOfDay; readonly plan: DayPlan }) {
  const best = day.plan
  const w = words.list.status
  if (best === null) return null
  return (
    <section className="stack" aria-label={w.title}>
      <div className="next">
        <p aria-live="polite">
          <strong>{statusText(best)}</strong>
        </p>
        <Search plan={plan} />
      </div>
      {best.objective !== null && <Goals objective={best.objective} bound={best.bound} />}
      <Proof day={day} plan={best} />
      <NoPlan plan={best} />
    </section>
  )
}

function Search({ plan }: { readonly plan: DayPlan }) {
  const w = words.list
  if (plan.looking)
    return (
      <div className="row no-print">
        <output>{w.better(furtherSeconds)}</output>
        <button type="button" onClick={plan.stop}>
          {w.stop}
        </button>
      </div>
    )
  return (
    <div className="row no-print">
      {plan.stopped && <output>{w.stopped}</output>}
      <button type="button" disabled={plan.first.isFetching} onClick={plan.again}>
        {w.again}
      </button>
    </div>
  )
}

type Best = NonNullable<PlanOfDay['plan']>

function Goals({ objective, bound }: Pick<Best, 'bound'> & { readonly objective: NonNullable<Best['objective']> }) {
  const w = words.list.goals
  return (
    <Table>
      <caption>{w.title}</caption>
      <thead>
        <tr>
          <th scope="col">{w.measure}</th>
          <th scope="col" className="number">
            {w.plan}
          </th>
          <th scope="col" className="number">
            {w.bound}
          </th>
        </tr>
      </thead>
      <tbody>
        {goals.map((goal) => (
          <tr key={goal}>
            <th scope="row">{w[goal]}</th>
            <td className="number">{objective[goal]}</td>
            <td className="number">{bound === null ? '—' : bound[goal]}</td>
          </tr>
        ))}
      </tbody>
    </Table>
  )
}

function Proof({ day, plan }: { readonly day: PlanOfDay; readonly plan: Best }) {
  const w = words.list.status
  const last = plan.rungs.at(-1)
  return (
    <div className="stack">
      {last !== undefined && (
        <p>
          {w.proven}: <strong>{w.rungs[last.name]}.</strong>{' '}
          <Why of={{ title: w.proven, says: last.says, working: 'plan-day' }}>{last.says}</Why>
        </p>
      )}
      {plan.withoutSolver !== undefined && (
        <p className="soft">
          {w.withoutSolver} {plan.withoutSolver}
        </p>
      )}
      {plan.rungs.length > 1 && (
        <details>
          <summary>{w.ladder}</summary>
          <ol>
            {plan.rungs.map(({ name, says }) => (
              <li key={name}>
                {w.rungs[name]}: {says}
              </li>
            ))}
          </ol>
        </details>
      )}
      <p className="small soft">
        {w.order} {citeSource(day.orderSource)}
      </p>
    </div>
  )
}

/** Why there is no plan, and what would make one possible. */
function NoPlan({ plan }: { readonly plan: Best }) {
  const w = words.list.status
  if (plan.status !== 'infeasible' && plan.status !== 'unknown') return null
  const { reliefs } = plan
  // The reasons end with what would relieve them, which is told below by itself.
  const reasons = plan.reasons.filter((each) => !reliefs.some(({ says }) => says === each))
  return (
    <>
      {reasons.length > 0 && (
        <div className="problem stack" role="alert">
          <strong>{w.reasons}</strong>
          <ul>
            {reasons.map((each) => (
              <li key={each}>{each}</li>
            ))}
          </ul>
        </div>
      )}
      {reliefs.length > 0 && (
        <div className="stack">
          <h2>{w.reliefs}</h2>
          <ol>
            {reliefs.map(({ says }) => (
              <li key={says}>{says}</li>
            ))}
          </ol>
        </div>
      )}
    </>
  )
}
