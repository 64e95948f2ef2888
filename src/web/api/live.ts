import type { QueryClient } from '@tanstack/react-query'
import type { LiveChange } from '#service/api-types.ts'
import { subjectKind } from '#road/subject.ts'
import { raiseAlarm } from '../session/alarms.ts'
import { sendAllWaiting } from '../outbox/outbox.ts'

/** Changes that come in one burst are answered by one look. */
const gatherMillis = 250
/** A stream that was refused, since as many are open as may be, is asked for again after this long. */
const againMillis = 30_000

/**
 * Follows the record: what changed is asked for again, and alarms are raised. `seq` is where
 * the record was when this page began to ask. Returns how to stop.
 */
export function followRecord(client: QueryClient, seq: number): () => void {
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
  let at: number | null = seq
  // The stream says where the record is each time it opens. What was asked for at the same place is fresh.
  const onHere = (event: MessageEvent<string>) => {
    const here = JSON.parse(event.data) as Pick<LiveChange, 'seq'>
    if (here.seq !== at) void client.invalidateQueries()
    at = null
    void sendAllWaiting()
  }
  const close = keepOpen({ onChange, onHere, onRefused: () => void client.invalidateQueries() })
  return () => {
    clearTimeout(timer)
    close()
  }
}

/** A browser opens a lost stream again by itself, but gives up on one that was refused. */
function keepOpen(on: {
  readonly onChange: (event: MessageEvent<string>) => void
  readonly onHere: (event: MessageEvent<string>) => void
  readonly onRefused: () => void
}): () => void {
  let stream: EventSource
  let again: ReturnType<typeof setTimeout> | undefined
  const open = () => {
    stream = new EventSource('/api/live')
    stream.addEventListener('message', on.onChange)
    stream.addEventListener('here', on.onHere)
    stream.addEventListener('error', () => {
      if (stream.readyState !== EventSource.CLOSED) return
      // Without a stream the screen is brought up to date each time it asks for one.
      on.onRefused()
      again = setTimeout(open, againMillis)
    })
  }
  open()
  return () => {
    clearTimeout(again)
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
