import type { BathKnown } from '#road/baths/bath-fold.ts'
import { bathProduct } from '#road/baths/products.ts'
import { usePolicy } from '../../components/use-policy.ts'
import { Why } from '../../components/Why.tsx'
import { useNow } from '../../session/use-now.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** How old a bath is, and until when it may be used. */
export function BathAge({ bath }: { readonly bath: BathKnown }) {
  const now = useNow()
  const policy = usePolicy()
  const times = useTimes()
  const product = bath.product === null ? undefined : bathProduct(bath.product)
  if (product === undefined || bath.activatedAt === null) return words.baths.notKnown
  const days = policy.limit(product.reuseDays)
  const began = Date.parse(bath.activatedAt)
  const end = new Date(Math.min(began + days.value * 86_400_000, Date.parse(bath.expiresAt ?? '9999-01-01')))
  const value = words.baths.age(Math.max(1, Math.ceil((now - began) / 86_400_000)), days.value)
  return (
    <>
      <Why
        of={{
          title: product.reuseDays.title,
          value,
          limit: `${days.value} ${product.reuseDays.unit}`,
          source: days.source,
        }}
      >
        {value}
      </Why>
      , {words.baths.until(times.moment(end.toISOString()))}
    </>
  )
}
