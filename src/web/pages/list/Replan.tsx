import type { PlanOfDay } from '#service/api-types.ts'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { words } from '../../words/words.ts'
import { Sentences } from './OwnOrder.tsx'
import { objectiveParts } from './plan-view.ts'
import type { DayPlan } from './use-day-plan.ts'

/** The kept plan changed as little as possible, from now. */
export function Replan({ day, plan }: { readonly day: PlanOfDay; readonly plan: DayPlan }) {
  const { replanned } = plan
  const w = words.list.replan
  const answer = replanned?.data?.replanned
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <p className="soft">{w.says}</p>
      <div className="row no-print">
        <button
          type="button"
          disabled={day.instance === null || replanned?.isFetching === true}
          onClick={() => (replanned === undefined ? plan.setReplan(true) : void replanned.refetch())}
        >
          {w.do}
        </button>
        {replanned !== undefined && (
          <button type="button" className="quiet" onClick={() => plan.setReplan(false)}>
            {w.close}
          </button>
        )}
      </div>
      <div aria-live="polite" className="stack">
        {replanned?.isFetching === true && <p className="soft">{words.list.asking}</p>}
        {replanned?.error && <ProblemNote error={replanned.error} />}
        {answer && <Changed answer={answer} />}
      </div>
    </section>
  )
}

function Changed({ answer }: { readonly answer: NonNullable<PlanOfDay['replanned']> }) {
  const w = words.list.replan
  return (
    <>
      <p>
        <strong>{answer.changes.length === 0 ? w.none : w.moved(answer.moved, answer.shifted)}</strong>
      </p>
      <Sentences all={answer.changes.map(({ says }) => says)} />
      <p>{objectiveParts(answer.objective)}</p>
      {answer.broken.length > 0 && (
        <div className="problem stack">
          <strong>{words.list.own.breaks}</strong>
          <Sentences all={answer.broken} />
        </div>
      )}
    </>
  )
}
