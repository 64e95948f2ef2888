import { useQuery } from '@tanstack/react-query'
import { knownQuery } from '../../api/queries.ts'
import { Next } from '../../components/Next.tsx'
import { SubjectSearch } from '../../components/SubjectSearch.tsx'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'

/** On the way in it offers the latest wound; below a trace it only searches. */
export function TraceSearch({ first = false }: { readonly first?: boolean }) {
  const { data: wounds = [] } = useQuery(knownQuery('wound'))
  const latest = wounds.toSorted((a, b) => ((a.state.noted?.at ?? '') < (b.state.noted?.at ?? '') ? 1 : -1))[0]
  const w = words.trace
  return (
    <section className="stack">
      {first && latest !== undefined && (
        <Next says={w.next} to={paths.traceOf(latest.subject)} action={w.traceLatest} />
      )}
      <SubjectSearch label={w.search} to={paths.traceOf} />
    </section>
  )
}
