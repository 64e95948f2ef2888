import type { QueryClient } from '@tanstack/react-query'
import type { LiveChange } from '#service/api-types.ts'
import { subjectKind } from '#road/subject.ts'
import { raiseAlarm } from '../session/alarms.ts'
import { followFrom, heard, isCutOff, stillFollowed } from '../offline/connection.ts'
import { sendWhatIsDue } from '../offline/outbox.ts'
import { ask } from './client.ts'

/** Changes that come in one burst are answered by one look. */
const gatherMillis = 250
/** A stream that was refused, since as many are open as may be, is asked for again after this long. */
const againMillis = 30_000
/** The stream beats every 15 seconds. One that is silent for longer may hang on a dead network: the service is asked. */
const silentMillis = 40_000
const watchMillis = 10_000
/** Alarms of what happened longer ago were heard, or are found in the record. */
const toldAgainMillis = 2 * 86_400_000

/** Where a page that begins to follow found the record, and when it asked. */
interface Began {
  readonly seq: number
  readonly at: number
}

/**
 * Follows the record: what changed is asked for again, and alarms are raised, also those that came since the page, or what is
 * kept of it, was answered. Returns how to stop.
 */
export function followRecord(client: QueryClient, began: Began): () => void {
  let stale = new Set<string>()
  let timer: ReturnType<typeof setTimeout> | undefined
  const refresh = () => {
    const gathered = stale
    stale = new Set()
    timer = undefined
    void client.invalidateQueries({ predicate: ({ queryKey }) => isTouched(queryKey, gathered) })
  }
  const onChange = (event: MessageEvent<string>) => {
    const change = JSON.parse(event.data) as LiveChange
    for (const subject of change.subjects) stale.add(subject).add(subjectKind(subject))
    if (change.alarm !== null) raiseAlarm({ seq: change.seq, says: change.alarm, subjects: change.subjects })
    timer ??= setTimeout(refresh, gatherMillis)
  }
  let at: number | null = began.seq
  // The stream says where the record is each time it opens. What was asked for at the same place is fresh.
  const onHere = (event: MessageEvent<string>) => {
    const here = JSON.parse(event.data) as Pick<LiveChange, 'seq'>
    followFrom(here.seq === at ? began.at : Date.now())
    if (here.seq !== at) void client.invalidateQueries()
    at = null
    heard()
    void sendWhatIsDue()
  }
  // A machine prints: no entry of the record, and drawn only where somebody looks at it.
  const onRunning = (event: MessageEvent<string>) => {
    const { machine } = JSON.parse(event.data) as { machine: string }
    void client.invalidateQueries({ queryKey: ['running', machine] })
  }
  const after = Date.now() - began.at < toldAgainMillis ? began.seq : null
  const close = keepOpen(after, { onChange, onHere, onRunning, onRefused: () => void client.invalidateQueries() })
  return () => {
    clearTimeout(timer)
    close()
  }
}

/** A browser opens a lost stream again by itself, but gives up on one that was refused. */
function keepOpen(
  after: number | null,
  on: {
    readonly onChange: (event: MessageEvent<string>) => void
    readonly onHere: (event: MessageEvent<string>) => void
    readonly onRunning: (event: MessageEvent<string>) => void
    readonly onRefused: () => void
  },
): () => void {
  let stream: EventSource
  let seen = after
  let beat = Date.now()
  let again: ReturnType<typeof setTimeout> | undefined
  // Asking for anything shows whether the service is there.
  const probe = () => void ask('/api/health', { signal: AbortSignal.timeout(watchMillis) }).catch(() => {})
  const onBeat = () => {
    beat = Date.now()
    stillFollowed()
  }
  const open = () => {
    stream = new EventSource(seen === null ? '/api/live' : `/api/live?after=${seen}`)
    stream.addEventListener('message', (event: MessageEvent<string>) => {
      seen = Number(event.lastEventId)
      on.onChange(event)
      onBeat()
    })
    stream.addEventListener('running', on.onRunning)
    stream.addEventListener('here', (event: MessageEvent<string>) => {
      beat = Date.now()
      on.onHere(event)
    })
    stream.addEventListener('still', onBeat)
    stream.addEventListener('error', () => {
      // Asked in vain already: the browser tries the stream again each second, and that is asking enough.
      if (!isCutOff()) probe()
      if (stream.readyState !== EventSource.CLOSED) return
      // Without a stream the screen is brought up to date each time it asks for one.
      on.onRefused()
      again = setTimeout(open, againMillis)
    })
  }
  const watch = setInterval(() => {
    if (isCutOff() || Date.now() - beat > silentMillis) probe()
  }, watchMillis)
  addEventListener('offline', probe)
  addEventListener('online', probe)
  open()
  return () => {
    clearTimeout(again)
    clearInterval(watch)
    removeEventListener('offline', probe)
    removeEventListener('online', probe)
    stream.close()
  }
}

const standsBehindPacks = ['load', 'machine', 'bath', 'immersion', 'lot', 'outlet', 'recall', 'policy']

/** What makes a plan another one: the cases, the sets and where they are, and the machines and hours that serve them. */
const standsBehindPlans = [
  'case',
  'list',
  'unit',
  'policy',
  'set',
  'device',
  'item',
  'round',
  'wash',
  'load',
  'machine',
  'bath',
  'immersion',
  'lot',
  'outlet',
  'recall',
]

/** A simulation takes many seconds and sets move all day: it is not begun again for each of them. */
const standsBehindSimulations = ['case', 'list', 'unit', 'policy']

/** What the calls, the line list, the rates and the charts are worked out from. */
const standsBehindWounds = ['case', 'wound', 'chart', 'policy']

/** A comparison takes seconds: only what was seen of wounds and samples begins it anew. */
const standsBehindSuspects = ['wound', 'sample']

/** What speaks against a set in a bath is shown with its bath too. */
const standsBehindBaths = ['bath', 'immersion', 'lot', 'outlet', 'round', 'recall', 'policy']

function isOf(kind: string, which: unknown): boolean {
  return typeof which === 'string' && (which === kind || which.startsWith(`${kind}:`))
}

/** Lists by kind and single subjects are matched; anything that is computed over many subjects always is. */
function isTouched(key: readonly unknown[], stale: ReadonlySet<string>): boolean {
  const [what, which] = key
  // What speaks against a pack may come from its load, the machine, the bath, the recall or a limit.
  if (what === 'known' || what === 'subject') {
    if (isOf('round', which) && standsBehindPacks.some((kind) => stale.has(kind))) return true
    if (isOf('bath', which) && standsBehindBaths.some((kind) => stale.has(kind))) return true
  }
  if (what === 'plan') {
    const behind = key[2] === 'simulate' ? standsBehindSimulations : standsBehindPlans
    return behind.some((kind) => stale.has(kind))
  }
  if (what === 'suspects') return standsBehindSuspects.some((kind) => stale.has(kind))
  if (what === 'wounds') return standsBehindWounds.some((kind) => stale.has(kind))
  if (what === 'known' || what === 'subject' || what === 'entries') return typeof which === 'string' && stale.has(which)
  return (
    what === 'chart' ||
    what === 'trace' ||
    what === 'look-back' ||
    what === 'recall' ||
    what === 'judge' ||
    ((what === 'unit' || what === 'policy') && stale.has(what))
  )
}
