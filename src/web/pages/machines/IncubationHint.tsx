import { useQuery } from '@tanstack/react-query'
import { biologicalIndicators } from '#road/sterilising/biological-indicators.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { methodOf } from '#road/sterilising/method-of.ts'
import { subjectQuery } from '../../api/queries.ts'
import { usePolicy } from '../../components/use-policy.ts'
import { words } from '../../words/words.ts'

/** Which spores the indicator of this load's method carries, and how it is incubated. */
export function IncubationHint({ load }: { readonly load: LoadKnown }) {
  const { data } = useQuery({ ...subjectQuery(load.machine ?? 'machine:none'), enabled: load.machine !== null })
  const policy = usePolicy()
  if (data === undefined) return null
  const { organism, fromC, toC, hours } = biologicalIndicators[methodOf(data.state) ?? 'steam']
  const [from, to, long] = [fromC, toC, hours].map((limit) => policy.limit(limit).value)
  if (from === undefined || to === undefined || long === undefined) return null
  return <p className="soft">{words.machines.incubate(organism, from, to, long)}</p>
}
