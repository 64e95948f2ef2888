import { citeSource } from '#units/source.ts'
import { useLimit } from './use-limit.ts'

/** A limit in force in one line, with its source. */
export function LimitLine({ id }: { readonly id: string }) {
  const limit = useLimit(id)
  if (limit === undefined) return null
  return (
    <p className="small soft">
      {limit.title}: {String(limit.value)} {limit.unit}. {citeSource(limit.source)}
    </p>
  )
}
