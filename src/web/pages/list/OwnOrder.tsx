import type { PlanOfDay } from '#service/api-types.ts'
import { planChanges } from '#workings/planning/plan-changes.ts'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { words } from '../../words/words.ts'
import { costText, differenceOf } from './plan-view.ts'
import type { DayPlan } from './use-day-plan.ts'

/** What an order of one's own breaks and costs, as soon as it is made. */
export function OwnOrder({ day, plan }: { readonly day: PlanOfDay; readonly plan: DayPlan }) {
  const { own } = plan
  const w = words.list.own
  if (own === undefined) return null
  const given = own.data?.given
  return (
    <section className="stack sheet" aria-label={w.title}>
      <h2>{w.title}</h2>
      <div aria-live="polite" className="stack">
        {own.isFetching && <p className="soft">{words.list.asking}</p>}
        {own.error && <ProblemNote error={own.error} retry={() => void own.refetch()} />}
        {given && <Given day={day} given={given} />}
      </div>
      <div>
        <button type="button" onClick={() => plan.setOrder(null)}>
          {w.back}
        </button>
      </div>
    </section>
  )
}

function Given({ day, given }: { readonly day: PlanOfDay; readonly given: NonNullable<PlanOfDay['given']> }) {
  const w = words.list.own
  const best = day.plan
  const changes = planChanges(best?.schedule?.cases ?? {}, given.schedule.cases)
  return (
    <>
      {given.broken.length === 0 ? (
        <p>
          <strong>{w.breaksNothing}</strong>
        </p>
      ) : (
        <div className="problem stack">
          <strong>{w.breaks}</strong>
          <Sentences all={given.broken} />
        </div>
      )}
      {best?.objective && <p>{costText(differenceOf(given.objective, best.objective))}</p>}
      <h3>{w.changes}</h3>
      {changes.length === 0 ? (
        <p className="soft">{w.noChanges}</p>
      ) : (
        <Sentences all={changes.map(({ says }) => says)} />
      )}
    </>
  )
}

export function Sentences({ all }: { readonly all: readonly string[] }) {
  return (
    <ul>
      {all.map((each) => (
        <li key={each}>{each}</li>
      ))}
    </ul>
  )
}
