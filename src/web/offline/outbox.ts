import type { EntryId, SentEntry } from '#road/entry.ts'
import type { Finding } from '#road/finding.ts'
import type { KindName } from '#road/kinds.ts'
import { type SubjectId, parseSubject, subjectKind } from '#road/subject.ts'
import { notWithoutNetwork } from '#road/without-network.ts'
import type { ApiProblem, EntryKept } from '#service/api-types.ts'
import { isPassing, isSignedOut, isTooMuch, post, ProblemError } from '../api/client.ts'
import { makeStore } from '../session/store.ts'
import { whoStore } from '../session/who.ts'
import { askSignature, isUnsigned } from '../sign-in/signature.ts'
import { words } from '../words/words.ts'
import { isCutOff } from './connection.ts'
import { readStore, writeStore } from './database.ts'
import { forgetAnswers } from './kept-answers.ts'

/*
 * What is entered is written down in this browser first and struck out only when the service has kept it. It is sent in the
 * order in which it was entered, by one page at a time. An entry keeps its id over all tries, so that a double tap or a lost
 * answer never makes two of one. What the service refuses stays here with its reason until a person has dealt with it.
 */

export interface Waiting {
  readonly place: number
  readonly entry: SentEntry
  readonly title: string
  readonly tries: number
  readonly standing: Standing
}

export type Standing =
  | { readonly at: 'toSend' }
  /** Another person is signed in at this screen: it is sent when its author is. */
  | { readonly at: 'author' }
  | { readonly at: 'unsigned' }
  | { readonly at: 'refused'; readonly problem: ApiProblem }
  /** It is in the record; what the rules found when it arrived was not noted by anybody at this screen yet. */
  | { readonly at: 'found'; readonly findings: readonly Finding[] }
  | { readonly at: 'takenOut'; readonly by: SentEntry['by']; readonly why: string; readonly when: string }

export type Sent =
  | { readonly outcome: 'kept'; readonly answer: EntryKept }
  /** No answer yet: it is kept here and sent again by itself. */
  | { readonly outcome: 'waiting' }

/** It is kept nowhere here, and nobody knows whether the service has recorded it. */
export class UnansweredError extends Error {
  override name = 'UnansweredError'
}

export const outboxStore = makeStore<readonly Waiting[]>([])

/** Whether this browser keeps what is entered: it may have no room left, or not be allowed to. */
export const keepsStore = makeStore(true)

/** What is not in the record yet. */
export function isUnsent({ standing }: Waiting): boolean {
  return standing.at !== 'found' && standing.at !== 'takenOut'
}

const patienceMillis = 20_000
const firstPauseMillis = 10_000
const longestPauseMillis = 300_000
/** How long what was taken out is still shown at this screen. */
const takenOutDays = 90

const otherPages = new BroadcastChannel('nilgrowth.outbox')
otherPages.addEventListener('message', () => void readOutbox())
let pauseMillis = firstPauseMillis
let nextTry = 0
/** The service has said that it was too much, and when to ask again. */
let toldToWaitUntil = 0
let isLooking = false
let unlocked: Promise<unknown> = Promise.resolve()

/** Sends an entry made by a form. Throws when it is not kept anywhere; then the form still holds it. */
export async function sendEntry(entry: SentEntry, title: string): Promise<Sent> {
  if (notWithoutNetwork[entry.kind as KindName] !== undefined) return await sendDecision(entry, title)
  if (!(await writeDown(entry, title))) return { outcome: 'kept', answer: await sendUnwritten(entry, title) }
  // Asked in vain a moment ago: nobody waits at the form for that to happen again.
  if (isCutOff() || Date.now() < toldToWaitUntil) return { outcome: 'waiting' }
  const reply = await watchSending(entry.id)
  if (reply === null) {
    const here = outboxStore.get().some((waiting) => waiting.entry.id === entry.id)
    // Another page of this browser has sent it: the record says what became of it.
    return here ? { outcome: 'waiting' } : { outcome: 'kept', answer: await tryOnce(entry) }
  }
  if ('kept' in reply) return { outcome: 'kept', answer: reply.kept }
  if (!isUnsigned(reply.refused)) throw reply.refused
  try {
    return { outcome: 'kept', answer: await signAndSend(entry, title, reply.refused) }
  } catch (error) {
    // It is signed: once it is sent again, the service finds the signature.
    if (isPassing(error) && (await writeDown(entry, title))) return { outcome: 'waiting' }
    throw error
  }
}

/** What became of the entry: in this page's turn, or in one that somebody asked for meanwhile. Null while it waits on. */
async function watchSending(id: EntryId): Promise<Reply | null> {
  watched.set(id, null)
  try {
    await inTurn(() => sendInOrder())
    return watched.get(id) ?? null
  } finally {
    watched.delete(id)
  }
}

/**
 * A decision is taken on the record as it stands. It is not written down to be sent later: an hour on it would be another
 * one. Before it goes all that is to be known before it.
 */
async function sendDecision(entry: SentEntry, title: string): Promise<Sent> {
  const send = () =>
    inTurn(async () => {
      await sendInOrder()
      const before = unsentBefore(entry)
      if (before !== undefined) throw new Error(words.offline.unsentFirst(before.title))
      return await tryOnce(entry)
    })
  try {
    return { outcome: 'kept', answer: await send() }
  } catch (error) {
    if (!isUnsigned(error)) throw notDecided(error)
    try {
      return { outcome: 'kept', answer: await signAndSend(entry, title, error) }
    } catch (later) {
      throw notDecided(later)
    }
  }
}

/** Where it was too much at once, the service says so, and that it wrote nothing. */
function notDecided(error: unknown): unknown {
  return isPassing(error) && !isTooMuch(error) ? new UnansweredError(words.offline.notDecided, { cause: error }) : error
}

/** An entry about the same subjects that the record does not have yet. */
export function unsentBefore(entry: SentEntry): Waiting | undefined {
  const named = namesIn(entry)
  return outboxStore
    .get()
    .find((waiting) => isUnsent(waiting) && namesIn(waiting.entry).some((id) => named.includes(id)))
}

async function signAndSend(entry: SentEntry, title: string, asked: ProblemError): Promise<EntryKept> {
  const kept = await askSignature(entry, title, asked.problem, () => inTurn(() => tryOnce(entry)))
  if (kept === null) throw asked
  return kept
}

/** Signs and sends what was refused for want of a signature, while nobody was looking at its form. */
export async function signWaiting(waiting: Waiting): Promise<void> {
  const { entry, title } = waiting
  try {
    await trySigned(entry, title)
    await strike(entry.id)
  } catch (error) {
    await keepBack(waiting, error)
  }
}

async function trySigned(entry: SentEntry, title: string): Promise<EntryKept> {
  try {
    return await inTurn(() => tryOnce(entry))
  } catch (error) {
    if (!isUnsigned(error)) throw error
    return await signAndSend(entry, title, error)
  }
}

/** Sends all that waits, at once unless the service has told to wait; what is refused now stays visible with its reason. */
export async function sendAllWaiting(): Promise<void> {
  await sendIf(() => Date.now() >= toldToWaitUntil)
}

/** A person has changed what was refused, or wants it tried again as it was. */
export async function sendAnew(waiting: Waiting, entry: SentEntry = waiting.entry): Promise<void> {
  await put({ ...waiting, entry, standing: { at: 'toSend' } })
  await sendAllWaiting()
}

/** Takes out what was refused. Only a person does this, and says why; it is shown at this screen for some time. */
export async function takeOut(waiting: Waiting, by: SentEntry['by'], why: string): Promise<void> {
  await put({ ...waiting, standing: { at: 'takenOut', by, why, when: new Date().toISOString() } })
}

/** Somebody at this screen has read what the rules found. */
export async function noteFound({ entry }: Waiting): Promise<void> {
  await strike(entry.id)
}

/** Sends by itself when the service is back, and with growing pauses while something waits. */
export function keepSending(): () => void {
  const timer = setInterval(() => void sendWhatIsDue(), 1000)
  void readOutbox()
    .then(clearTakenOut)
    .then(() => sendAllWaiting())
  return () => clearInterval(timer)
}

/** Sends what waits unless it was tried a moment ago. While the service is not heard, others ask whether it is there. */
export async function sendWhatIsDue(): Promise<void> {
  if (isLooking) return
  isLooking = true
  await sendIf(() => !isCutOff() && Date.now() >= nextTry)
  isLooking = false
}

async function sendIf(mayGo: () => boolean): Promise<void> {
  const isDue = ({ entry, standing }: Waiting) => standing.at === 'toSend' || isOfPresent(entry, standing)
  if (!mayGo() || !outboxStore.get().some(isDue)) return
  try {
    await inTurn(async () => {
      // What was sent while this waited for its turn may have been told to wait.
      if (mayGo()) await sendInOrder()
    })
  } catch {
    // The browser's store is in trouble: what is in it is tried again as it stands there.
  }
}

/** It waits for its author, who is signed in now. */
function isOfPresent(entry: SentEntry, standing: Standing): boolean {
  return standing.at === 'author' && entry.by === whoStore.get()
}

type Reply = { readonly kept: EntryKept } | { readonly refused: ProblemError }

/** Entries that a form looks at, with what became of them: they are not left in the outbox then. */
const watched = new Map<EntryId, Reply | null>()

/** Sends what waits, and says when to try the rest again: as late as the service tells, or after a pause that grows. */
async function sendInOrder(): Promise<void> {
  try {
    paceAfter(await sendEach())
  } catch (error) {
    paceAfter(error)
    throw error
  }
}

function paceAfter(held: unknown): void {
  if (held instanceof ProblemError && held.waitMillis !== null) {
    toldToWaitUntil = Date.now() + held.waitMillis
    nextTry = toldToWaitUntil
    return
  }
  if (held === undefined) pauseMillis = firstPauseMillis
  nextTry = Date.now() + pauseMillis
  if (held !== undefined) pauseMillis = Math.min(pauseMillis * 2, longestPauseMillis)
}

/** One after the other: a later entry may need what an earlier one made. Gives why the rest has to wait, if it has to. */
async function sendEach(): Promise<unknown> {
  const freed = new Set<SubjectId>()
  /* oxlint-disable no-await-in-loop */
  for (const waiting of await readOutbox()) {
    const { entry, standing } = waiting
    // What was refused may have lacked an entry that has only just been kept.
    const again = standing.at === 'refused' && namesIn(entry).some((id) => freed.has(id))
    if (standing.at !== 'toSend' && !isOfPresent(entry, standing) && !again) continue
    try {
      const kept = await tryOnce(entry)
      for (const id of namesIn(entry)) freed.add(id)
      const isWatched = watched.has(entry.id)
      if (isWatched) watched.set(entry.id, { kept })
      await (isWatched ? strike(entry.id) : settle(waiting, kept))
    } catch (error) {
      const { at } = standingAfter(error)
      if (watched.has(entry.id) && error instanceof ProblemError && (at === 'refused' || at === 'unsigned')) {
        watched.set(entry.id, { refused: error })
        await strike(entry.id)
        continue
      }
      if (isSignedOut(error)) return error
      await keepBack(waiting, error)
      if (at === 'toSend' && !isOurFailure(error)) return error
    }
  }
  /* oxlint-enable no-await-in-loop */
  return undefined
}

/** A mistake of the program in this one entry: the others need not wait for it to be mended. */
function isOurFailure(error: unknown): boolean {
  return error instanceof ProblemError && error.problem.status === 500
}

/** The form tells what the rules found of an entry that it sees kept; of one that arrives later the outbox tells. */
async function settle(waiting: Waiting, { findings }: EntryKept): Promise<void> {
  const told = findings.filter(({ weight }) => weight !== 'note')
  if (told.length === 0) return await strike(waiting.entry.id)
  await put({ ...waiting, standing: { at: 'found', findings: told } })
}

async function keepBack(waiting: Waiting, error: unknown): Promise<void> {
  await put({ ...waiting, tries: waiting.tries + 1, standing: standingAfter(error) })
}

function standingAfter(error: unknown): Standing {
  const unsigned: boolean = isUnsigned(error)
  if (unsigned) return { at: 'unsigned' }
  if (!(error instanceof ProblemError) || isPassing(error) || isSignedOut(error)) return { at: 'toSend' }
  if (error.problem.type === '/problems/not-yours') return { at: 'author' }
  return { at: 'refused', problem: error.problem }
}

function tryOnce(entry: SentEntry): Promise<EntryKept> {
  return post<EntryKept>('/api/entries', entry, patienceMillis)
}

/** One page of the browser at a time. Where it has no locks, each page by itself: the id keeps an entry from being doubled. */
async function inTurn<Result>(work: () => Promise<Result>): Promise<Result> {
  // The browser offers locks to secure pages only.
  const locks = navigator.locks as LockManager | undefined
  if (locks !== undefined) return await locks.request('nilgrowth.outbox', work)
  const mine = unlocked.then(work)
  unlocked = mine.catch(() => undefined)
  return await mine
}

/** False when there is no room: neither at first nor after the kept answers, which the record has anyway, were given up. */
async function writeDown(entry: SentEntry, title: string): Promise<boolean> {
  const waiting = { entry, title, tries: 0, standing: { at: 'toSend' } } as const
  const add = () => writeStore('outbox', (store) => store.add(waiting))
  try {
    await add().catch(() => forgetAnswers().then(add))
    keepsStore.set(true)
  } catch {
    keepsStore.set(false)
    return false
  }
  await changed()
  return true
}

/** Sent without being kept here: the form holds it until there is an answer. */
async function sendUnwritten(entry: SentEntry, title: string): Promise<EntryKept> {
  try {
    return await trySigned(entry, title)
  } catch (error) {
    if (isPassing(error) && !isTooMuch(error)) throw new UnansweredError(words.offline.noRoom, { cause: error })
    throw error
  }
}

async function put(waiting: Waiting): Promise<void> {
  await writeStore('outbox', (store) => store.put(waiting))
  await changed()
}

async function strike(id: string): Promise<void> {
  const places = outboxStore.get().filter(({ entry }) => entry.id === id)
  await Promise.all(places.map(({ place }) => writeStore('outbox', (store) => store.delete(place))))
  await changed()
}

async function changed(): Promise<void> {
  await readOutbox()
  // A channel has one origin by itself; the rule is about windows.
  // oxlint-disable-next-line unicorn/require-post-message-target-origin
  otherPages.postMessage('changed')
}

async function readOutbox(): Promise<readonly Waiting[]> {
  try {
    const all = await readStore<Waiting[]>('outbox', (store) => store.getAll())
    outboxStore.set(all)
    return all
  } catch {
    // What a browser without a database cannot hold is not there.
    keepsStore.set(false)
    return []
  }
}

async function clearTakenOut(all: readonly Waiting[]): Promise<void> {
  const last = new Date(Date.now() - takenOutDays * 86_400_000).toISOString()
  const old = all.filter(({ standing }) => standing.at === 'takenOut' && standing.when < last)
  await Promise.all(old.map(({ entry }) => strike(entry.id)))
}

/** The subjects that an entry names, but for those that nearly every entry does. */
function namesIn({ body }: SentEntry): readonly SubjectId[] {
  const texts = JSON.stringify(body).matchAll(/"([a-z]+:[^"\\]+)"/g)
  return [...texts].flatMap(([, text = '']) => {
    const id = parseSubject(text)
    return id === undefined || ['unit', 'policy', 'person'].includes(subjectKind(id)) ? [] : [id]
  })
}
