import { useQuery } from '@tanstack/react-query'
import type { Bodies } from '#road/kinds.ts'
import { subjectTitle } from '#road/tracing/subject-title.ts'
import { knownQuery, newestQuery } from '../../api/queries.ts'
import type { Option } from '../../components/Fields.tsx'

type Sampled = NonNullable<Bodies['sample-taken']['from']>

/** The newest baths; one that is older is long poured away. */
const baths = 20

/** What in the unit a sample can be taken from, by its name: outlets, baths, machines and sets. */
export function useSampled(): readonly Option<Sampled>[] {
  const outlets = useQuery(knownQuery('outlet')).data ?? []
  const newest = useQuery(newestQuery('bath', baths)).data ?? []
  const machines = useQuery(knownQuery('machine')).data ?? []
  const sets = useQuery(knownQuery('set')).data ?? []
  return [...outlets, ...newest, ...machines, ...sets].map((row) => ({
    value: row.subject,
    label: subjectTitle(row.subject, row.state, () => undefined),
  }))
}
