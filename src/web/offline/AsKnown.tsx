import { type QueryClient, useQueryClient } from '@tanstack/react-query'
import { useCallback, useSyncExternalStore } from 'react'
import { useNow } from '../session/use-now.ts'
import { useTimes } from '../session/unit.ts'
import { useStore } from '../session/use-store.ts'
import { spanText } from '../words/standing.ts'
import { words } from '../words/words.ts'
import './offline.css'
import { connectionStore, knownUntil } from './connection.ts'
import { keepsStore } from './outbox.ts'

/** Over every page that is shown while the record cannot be asked: how old it is, on paper too. */
export function AsKnown() {
  const connection = useStore(connectionStore)
  return connection === 'answering' ? null : <Told />
}

function Told() {
  const at = useOldestShown(useQueryClient())
  const now = useNow(15)
  const keeps = useStore(keepsStore)
  const times = useTimes()
  const iso = new Date(at ?? now).toISOString()
  const sameDay = times.day(iso) === times.day(new Date(now).toISOString())
  return (
    <output className="as-known">
      <p>
        <strong>
          {at === null
            ? words.offline.nothingKnown
            : words.offline.asKnown(sameDay ? times.clock(iso) : times.moment(iso), agoText(now - at))}
        </strong>
      </p>
      <p className="no-print">{keeps ? words.offline.goesOn : words.offline.keepsNothing}</p>
    </output>
  )
}

function agoText(milliseconds: number): string {
  return milliseconds < 60_000 ? words.time.now : words.offline.ago(spanText(milliseconds))
}

/** At the closed door. */
export function NobodyCanSignIn() {
  return useStore(connectionStore) === 'none' ? <output>{words.offline.nobody}</output> : null
}

/** Up to when the oldest of what is shown was known to hold; null when nothing is. */
function useOldestShown(client: QueryClient): number | null {
  const subscribe = useCallback((changed: () => void) => client.getQueryCache().subscribe(changed), [client])
  return useSyncExternalStore(subscribe, () => oldestShown(client))
}

/** These do not age: what is written about the program, and who sits before it. */
const ageless = new Set(['me', 'unit', 'rules', 'workings', 'working', 'judge', 'entry'])

function oldestShown(client: QueryClient): number | null {
  const shown = client.getQueryCache().findAll({ type: 'active' })
  const moments = shown.flatMap(({ queryKey: [what], state }) =>
    state.data === undefined || ageless.has(String(what)) ? [] : [knownUntil(state.dataUpdatedAt)],
  )
  return moments.length === 0 ? null : Math.min(...moments)
}
