import { Link } from 'react-router'
import { words } from '../words/words.ts'
import { Next } from './Next.tsx'
import { useBeginning } from './use-beginning.ts'

/** What is missing before the first set has gone through the wash, in order; gone once nothing is. */
export function Beginning() {
  const steps = useBeginning()
  const needed = steps?.filter(({ optional }) => !optional) ?? []
  const next = needed.find(({ done }) => !done)
  if (steps === undefined || next === undefined) return null
  const w = words.unit.guide
  const done = needed.filter((step) => step.done).length
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <Next says={w.steps[next.id]} to={next.to} action={next.action} />
      <p>{w.progress(done, needed.length)}</p>
      <progress style={{ width: '100%' }} value={done} max={needed.length} aria-label={w.title} />
      <ol className="lines">
        {steps.map((step) => (
          <li key={step.id}>
            <div className="grow">
              <Link to={step.to}>{w.steps[step.id]}</Link>
            </div>
            {step.done && <span className="tag good">{w.done}</span>}
            {!step.done && step.optional && <span className="soft small">{w.optional}</span>}
          </li>
        ))}
      </ol>
    </section>
  )
}
