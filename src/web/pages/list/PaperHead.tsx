import { Link } from 'react-router'
import { sentence } from '#units/sentence.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { Sentences } from './OwnOrder.tsx'
import { statusText } from './plan-view.ts'
import type { PaperPlan } from './use-paper-plan.ts'

/** Which plan is on the paper, how good it is, and whether it can still be held. */
export function PaperHead({ paper }: { readonly paper: PaperPlan }) {
  const times = useTimes()
  const { day, kept, changes } = paper
  const w = words.list.print
  const at = day.kept?.plan?.at
  return (
    <div className="stack">
      <p className="row no-print">
        <button type="button" className="main" onClick={() => window.print()}>
          {words.form.print}
        </button>
        <Link className="button" to={paths.listOf(day.day)}>
          {w.back}
        </Link>
      </p>
      <p>
        {kept && at !== undefined ? w.kept(times.moment(at)) : w.notKept}{' '}
        {!kept && day.plan !== null && w.mayBetter(statusText(day.plan))}
        {kept && <Measured paper={paper} />}
      </p>
      {changes.length > 0 && (
        <div className="problem stack">
          <strong>{w.cannot}</strong>
          <Sentences all={changes} />
        </div>
      )}
    </div>
  )
}

/** How good the kept plan was when it was kept. */
function Measured({ paper }: { readonly paper: PaperPlan }) {
  const plan = paper.day.kept?.plan
  if (!plan) return null
  const { objective, bound, breaks } = plan
  const status = plan.status === 'optimal' ? 'optimal' : 'feasible'
  return (
    <>
      {words.list.print.mayBetter(statusText({ status, objective, bound }))}
      {breaks.length > 0 && ` ${sentence(`${words.list.own.breaks}: ${breaks.join('; ')}`)}`}
    </>
  )
}
