import { words } from '../../words/words.ts'
import type { ShownPlan } from './plan-view.ts'

/** The resource that holds the day most. */
export function Advice({ shown }: { readonly shown: ShownPlan }) {
  const binding = shown.why?.binding
  const w = words.list.advice
  if (binding === undefined) return null
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <p>
        <strong>{binding.says}</strong>
      </p>
      {binding.kind === 'theatres' && <p>{w.freed}</p>}
      <p className="soft">{w.says}</p>
    </section>
  )
}
