import type { PlanOfDay } from '#service/api-types.ts'
import { planChanges } from '#workings/planning/plan-changes.ts'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { words } from '../../words/words.ts'
import { Sentences } from './OwnOrder.tsx'
import { costText, differenceOf, statusText } from './plan-view.ts'
import type { DayPlan } from './use-day-plan.ts'

/** The day planned with places that are tried as fixed, and what that changes. */
export function FixedPlaces({ day, plan }: { readonly day: PlanOfDay; readonly plan: DayPlan }) {
  const { fixed, locks } = plan
  const w = words.list.locks
  if (fixed === undefined) return null
  const answer = fixed.data?.plan
  return (
    <section className="stack sheet" aria-label={w.title}>
      <h2>{w.title}</h2>
      <p>{w.says(locks.map((lock) => lock.case).join(', '))}</p>
      <div aria-live="polite" className="stack">
        {fixed.isFetching && <p className="soft">{words.list.asking}</p>}
        {fixed.error && <ProblemNote error={fixed.error} retry={() => void fixed.refetch()} />}
        {answer && (
          <p>
            <strong>{statusText(answer)}</strong>
          </p>
        )}
        {answer?.objective && day.plan?.objective && (
          <p>{costText(differenceOf(answer.objective, day.plan.objective))}</p>
        )}
        {answer?.schedule && (
          <Sentences
            all={planChanges(day.plan?.schedule?.cases ?? {}, answer.schedule.cases).map(({ says }) => says)}
          />
        )}
        {(answer?.status === 'infeasible' || answer?.status === 'unknown') && <Sentences all={answer.reasons} />}
      </div>
      <div>
        <button type="button" onClick={() => plan.setLocks([])}>
          {w.free}
        </button>
      </div>
    </section>
  )
}
