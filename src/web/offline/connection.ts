import { makeKeptStore, makeStore } from '../session/store.ts'

/*
 * Whether the service answers. The browser's own word on the network says nothing of the service: only an answer counts,
 * and only what was asked for in vain speaks against it.
 */

export type Connection = 'answering' | 'none' | 'back'

/** `back`: it answers again, and what the page shows is being asked for anew. */
export const connectionStore = makeStore<Connection>('answering')

export function heard(): void {
  if (connectionStore.get() === 'none') connectionStore.set('back')
}

export function notHeard(): void {
  if (connectionStore.get() !== 'none') connectionStore.set('none')
}

export function isCutOff(): boolean {
  return connectionStore.get() === 'none'
}

interface Followed {
  readonly from: number
  readonly until: number
}

const followedStore = makeKeptStore<Followed>('nilgrowth.followed', { from: 0, until: 0 })

/** The stream of changes is open from here on: what does not change is known as it is. */
export function followFrom(from: number): void {
  followedStore.set({ from, until: Date.now() })
}

export function stillFollowed(): void {
  followedStore.set({ ...followedStore.get(), until: Date.now() })
}

/** Up to when an answer of that moment was known to hold: while the record was followed, a change would have shown. */
export function knownUntil(answered: number): number {
  const { from, until } = followedStore.get()
  return answered >= from && answered <= until ? until : answered
}
