import type { KindName } from '#road/kinds.ts'
import { notWithoutNetwork, othersMustBeTold } from '#road/without-network.ts'
import { useStore } from '../session/use-store.ts'
import { words } from '../words/words.ts'
import { connectionStore } from './connection.ts'

/** Why this cannot be recorded now; null when it can. */
export function useNotNow(kind: KindName): string | null {
  const cutOff = useStore(connectionStore) === 'none'
  return cutOff ? (notWithoutNetwork[kind] ?? null) : null
}

/** At a form while there is no network: that it is not judged, that it is not offered, or that others have to be told. */
export function WithoutNetwork({ kind, judged }: { readonly kind: KindName; readonly judged: boolean }) {
  const cutOff = useStore(connectionStore) === 'none'
  const notNow = useNotNow(kind)
  if (!cutOff) return null
  const w = words.offline
  return (
    <output className="stack">
      {notNow === null ? judged && <p>{w.notJudged}</p> : <p>{w.notNow(notNow)}</p>}
      {kind === 'pack-opened' && <p>{w.packNotJudged}</p>}
      {othersMustBeTold.includes(kind) && (
        <p>
          <strong>{w.tellOthers}</strong>
        </p>
      )}
    </output>
  )
}
