import { hashKey, type Query, type QueryClient, type QueryKey } from '@tanstack/react-query'
import type { MeAnswer } from '#service/api-types.ts'
import { isUnheard } from '../api/client.ts'
import { meQuery } from '../sign-in/me.ts'
import { readStore, writeStore } from './database.ts'
import { closedFor, isStillOpen } from './open-door.ts'

/*
 * What the record answered last is kept in this browser, so that a page can be shown when the record cannot be asked. It is
 * kept for one person and while that person is signed in: when the door closes it goes (ADR 16). It is read only when the
 * service was asked in vain, and the page says how old it is.
 */

interface KeptAnswer {
  readonly hash: string
  /** The person for whom it was answered; `everyone` for what anybody may read before signing in. */
  readonly owner: string
  readonly key: QueryKey
  readonly at: number
  readonly answer: unknown
}

/** What is kept: what rooms show of sets, machines, cases and the policy. Not kept: accounts, the log of access, searches. */
const keptKinds = new Set([
  'known',
  'subject',
  'entries',
  'policy',
  'recall',
  'trace',
  'chart',
  'wounds',
  'rules',
  'workings',
  'plan',
])
/** Worked out for one question, and large. */
const notKeptPlans = new Set(['question', 'simulate'])
const keptDays = 14

const everyone = 'everyone'

/** Keeps what is answered, and gives it back when the service does not answer. */
export function keepAnswers(client: QueryClient): void {
  void clearOld()
  client.getQueryCache().subscribe((event) => {
    if (event.type !== 'updated') return
    const { query, action } = event
    if (action.type === 'success' && action.manual !== true) {
      // Trouble with the browser's store is no trouble of the page: it has its answer.
      keep(client, query).catch(() => {})
    }
    if ((action.type === 'failed' || action.type === 'error') && isUnheard(action.error)) {
      if (query.state.data === undefined) restore(client, query.queryKey).catch(() => {})
    }
  })
}

/** Everything goes but what anybody may read. */
export async function forgetAnswers(): Promise<void> {
  await settleOwner(null)
}

/** Closes the door at a screen without network, where the service cannot do it. */
export async function closeDoor(client: QueryClient): Promise<void> {
  const me = client.getQueryData<MeAnswer>(meQuery.queryKey)
  if (me === undefined || me.person === null) return
  const closed = closedFor(me)
  client.setQueryData(meQuery.queryKey, closed)
  await settleOwner(ownerOf(closed))
  await put({ hash: hashKey(meQuery.queryKey), owner: everyone, key: meQuery.queryKey, at: Date.now(), answer: closed })
}

async function keep(client: QueryClient, query: Query): Promise<void> {
  const { queryKey: key, queryHash: hash, state } = query
  const { data: answer, dataUpdatedAt: at } = state
  const [what] = key
  if (what === 'me') await settleOwner(ownerOf(answer as MeAnswer))
  if (what === 'me' || what === 'unit') return await put({ hash, owner: everyone, key, at, answer })
  const me = client.getQueryData<MeAnswer>(meQuery.queryKey)
  const owner = me === undefined ? null : ownerOf(me)
  if (owner === null || !isKept(key)) return
  await put({ hash, owner, key, at, answer })
}

async function restore(client: QueryClient, key: QueryKey): Promise<void> {
  const kept = await readStore<KeptAnswer | undefined>('answers', (store) => store.get(hashKey(key)))
  if (kept === undefined) return
  const answer = key[0] === 'me' ? await meWithoutNetwork(kept.answer as MeAnswer) : kept.answer
  const me = client.getQueryData<MeAnswer>(meQuery.queryKey)
  if (kept.owner !== everyone && (me === undefined || kept.owner !== ownerOf(me))) return
  // The record may have answered meanwhile.
  if (client.getQueryData(key) !== undefined) return
  client.setQueryData(key, answer, { updatedAt: kept.at })
}

/** Who was signed in goes on where the time without doing anything has not run out. */
async function meWithoutNetwork(me: MeAnswer): Promise<MeAnswer> {
  if (isStillOpen(me, Date.now())) return me
  await forgetAnswers()
  return closedFor(me)
}

/** For whom answers are kept now; null while nobody is signed in. */
function ownerOf(me: MeAnswer): string | null {
  return me.signIn === 'notAsked' ? 'anyone' : (me.person?.id ?? null)
}

function isKept([what, , third]: QueryKey): boolean {
  if (what === 'plan' && typeof third === 'string' && notKeptPlans.has(third)) return false
  return typeof what === 'string' && keptKinds.has(what)
}

async function settleOwner(owner: string | null): Promise<void> {
  await clearWhere((kept) => kept.owner !== everyone && kept.owner !== owner)
}

async function clearOld(): Promise<void> {
  const oldest = Date.now() - keptDays * 86_400_000
  await clearWhere(({ at }) => at < oldest).catch(() => {})
}

async function clearWhere(isToGo: (kept: KeptAnswer) => boolean): Promise<void> {
  const all = await readStore<KeptAnswer[]>('answers', (store) => store.getAll())
  await Promise.all(all.filter(isToGo).map(({ hash }) => writeStore('answers', (store) => store.delete(hash))))
}

async function put(kept: KeptAnswer): Promise<void> {
  await writeStore('answers', (store) => store.put(kept))
}
