import type { SentEntry } from '#road/entry.ts'
import type { EntryKept } from '#service/api-types.ts'
import { isPassing, isSignedOut, post, ProblemError } from '../api/client.ts'
import { makeKeptStore } from '../session/store.ts'
import { askSignature, isUnsigned } from '../sign-in/signature.ts'

/*
 * What is entered is written down in this browser first and struck out only when the service has
 * kept it or refused it. An entry keeps its id over all tries, so that a double tap or a lost
 * answer never makes two of one.
 */

export interface Waiting {
  readonly entry: SentEntry
  readonly title: string
  readonly tries: number
  /** Set when the service refused it while nobody was looking at its form. */
  readonly refused: string | null
  /** It was refused because it has to be signed first. */
  readonly unsigned?: boolean
}

export type Sent =
  | { readonly outcome: 'kept'; readonly answer: EntryKept }
  /** No answer yet: it is kept here and sent again by itself. */
  | { readonly outcome: 'waiting' }

export const outboxStore = makeKeptStore<readonly Waiting[]>('nilgrowth.outbox', [])

const inFlight = new Set<string>()

/** Sends an entry made by a form. Throws a ProblemError when the service refuses it; then the form still holds it. */
export async function sendEntry(entry: SentEntry, title: string): Promise<Sent> {
  put({ entry, title, tries: 0, refused: null })
  try {
    const answer = await trySigned(entry, title)
    strike(entry.id)
    return { outcome: 'kept', answer }
  } catch (error) {
    if (mayComeThrough(error)) return { outcome: 'waiting' }
    strike(entry.id)
    throw error
  }
}

/** Sends it; where it has to be signed, asks the person at the screen and sends it again. */
async function trySigned(entry: SentEntry, title: string): Promise<EntryKept> {
  try {
    return await tryOnce(entry)
  } catch (error) {
    if (!isUnsigned(error)) throw error
    inFlight.add(entry.id)
    const signed = await askSignature(entry, title, error.problem)
    if (!signed) {
      inFlight.delete(entry.id)
      throw error
    }
    return await tryOnce(entry)
  }
}

/** Signs and sends what was refused for want of a signature, while nobody was looking at its form. */
export async function signWaiting({ entry, title, tries }: Waiting): Promise<void> {
  try {
    await trySigned(entry, title)
    strike(entry.id)
  } catch (error) {
    const says = error instanceof Error ? error.message : String(error)
    put({
      entry,
      title,
      tries: tries + 1,
      refused: mayComeThrough(error) ? null : says,
      unsigned: isUnsigned(error),
    })
  }
}

/** The same entry may be kept when it is sent again: the service is in trouble, or nobody is signed in now. */
function mayComeThrough(error: unknown): boolean {
  return isPassing(error) || isSignedOut(error)
}

/** Tries again all that waits; what is refused now stays visible with its reason. */
export async function sendAllWaiting(): Promise<void> {
  for (const waiting of outboxStore.get()) {
    if (waiting.refused !== null || inFlight.has(waiting.entry.id)) continue
    // One after the other: a later entry may need the subject that an earlier one made.
    // oxlint-disable-next-line no-await-in-loop
    const goesOn = await resend(waiting)
    if (!goesOn) return
  }
}

/** Takes an entry out of the outbox for good. Only a person does this. */
export function discardWaiting(id: string): void {
  strike(id)
}

/** Tries again by itself when the network returns, and every ten seconds while something waits. */
export function keepSending(): () => void {
  const again = () => void sendAllWaiting()
  addEventListener('online', again)
  const timer = setInterval(again, 10_000)
  again()
  return () => {
    removeEventListener('online', again)
    clearInterval(timer)
  }
}

async function resend(waiting: Waiting): Promise<boolean> {
  try {
    await tryOnce(waiting.entry)
    strike(waiting.entry.id)
    return true
  } catch (error) {
    const passing = mayComeThrough(error)
    const refused = error instanceof ProblemError && !passing ? error.message : null
    put({ ...waiting, tries: waiting.tries + 1, refused, unsigned: isUnsigned(error) })
    return !passing
  }
}

async function tryOnce(entry: SentEntry): Promise<EntryKept> {
  inFlight.add(entry.id)
  try {
    return await post<EntryKept>('/api/entries', entry)
  } finally {
    inFlight.delete(entry.id)
  }
}

function put(waiting: Waiting): void {
  const others = outboxStore.get().filter((each) => each.entry.id !== waiting.entry.id)
  outboxStore.set([...others, waiting])
}

function strike(id: string): void {
  outboxStore.set(outboxStore.get().filter((each) => each.entry.id !== id))
}
