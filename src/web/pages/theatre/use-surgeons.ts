import { useQuery } from '@tanstack/react-query'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import type { Option } from '../../components/Fields.tsx'

/** People who work here, those who operate first. */
export function useSurgeons(): readonly Option<SubjectId<'person'>>[] {
  const { data = [] } = useQuery(knownQuery('person', ['active']))
  const operates = (row: (typeof data)[number]) =>
    row.state.roles.some((role) => role === 'surgeonInCharge' || role === 'theatre')
  return data
    .toSorted((a, b) => Number(operates(b)) - Number(operates(a)) || a.state.name.localeCompare(b.state.name))
    .map((row) => ({ value: row.subject, label: row.state.name }))
}
