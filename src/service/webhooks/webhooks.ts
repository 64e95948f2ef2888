import { v7 } from 'uuid'
import { z } from 'zod'
import type { KeptEntry, SiteId } from '#road/entry.ts'
import { type Instant, instant, millis } from '#road/instant.ts'
import { about, readEntry } from '#road/read-entry.ts'
import type { Journal, Reader } from '#journal/journal.ts'
import { oneAtATime } from '#journal/one-at-a-time.ts'
import { postSigned } from './post.ts'
import { newSecret } from './sign.ts'
import { type Delivery, Webhook, WebhookState } from './webhook.ts'

export interface ShownWebhook extends Omit<Webhook, 'secret'>, WebhookState {
  /** How many entries are still to be looked at. */
  readonly behind: number
}

/** Tells other systems of entries: at least once, each in order, with no more of them than what they are about. */
export interface Webhooks {
  list(): Promise<readonly ShownWebhook[]>
  /** Begins with what is recorded from now on. The secret is given this once. */
  add(wanted: Pick<Webhook, 'url' | 'kinds'>): Promise<Webhook>
  remove(id: string): Promise<boolean>
  /** Goes on where it had stopped. */
  resume(id: string): Promise<boolean>
  /** Sends a message that is no entry; undefined where there is none of this id. */
  test(id: string): Promise<Delivery | undefined>
  /** Tells all that is to be told now; used by the clock, and by tests. */
  tell(): Promise<void>
  start(): void
  stop(): Promise<void>
}

interface Parts {
  readonly journal: Journal
  readonly reader: Reader
  readonly site: SiteId
  readonly now: () => Instant
  readonly privateAllowed: boolean
  readonly say: (line: string) => void
}

/** After so many failures in a row it is left alone until somebody lets it go on: some two days with the waits below. */
export const mostFailures = 16
const firstWaitSeconds = 5
const longestWaitSeconds = 4 * 3600
const lookEveryMilliseconds = 5000
const recentKept = 30
const pageSize = 200

export function webhooksOf({ journal, reader, site, now, privateAllowed, say }: Parts): Webhooks {
  const { notes } = journal
  const inTurn = oneAtATime()
  const listNote = `webhooks ${site}`
  const stateNote = (id: string): string => `webhook ${site} ${id}`
  const readAll = async (): Promise<readonly Webhook[]> => {
    const text = await notes.read(listNote)
    return text === undefined ? [] : z.array(Webhook).parse(JSON.parse(text))
  }
  const readState = async (id: string): Promise<WebhookState | undefined> => {
    const text = await notes.read(stateNote(id))
    return text === undefined ? undefined : WebhookState.parse(JSON.parse(text))
  }
  const writeState = (id: string, state: WebhookState): Promise<void> =>
    notes.write(stateNote(id), JSON.stringify(state))
  const headSeq = async (): Promise<number> => (await reader.head())?.seq ?? 0
  let stopped = false

  const send = async (webhook: Webhook, message: string, kind: string, body: object): Promise<Delivery> => {
    const at = now()
    const sent = { id: message, timestamp: Math.floor(millis(at) / 1000), body: JSON.stringify(body) }
    return { message, kind, at, ...(await postSigned(webhook, sent, privateAllowed)) }
  }

  /** One subscription, from where it stands, until all is told or one try fails. */
  const tellOne = async (webhook: Webhook): Promise<void> => {
    let state = await readState(webhook.id)
    if (state === undefined || state.dead || (state.nextAt !== null && state.nextAt > now())) return
    for (;;) {
      // In order: the next is sent when the one before was taken.
      /* oxlint-disable no-await-in-loop */
      const page = await reader.entries({ afterSeq: state.cursor, limit: pageSize })
      if (page.length === 0) return
      for (const entry of page) {
        if (stopped) return
        if (!webhook.kinds.includes('*') && !webhook.kinds.includes(entry.kind)) {
          state = { ...state, cursor: entry.seq }
          continue
        }
        const delivery = await send(webhook, entry.id, entry.kind, eventOf(entry))
        // It may have been taken away meanwhile: then nothing is written of it any more.
        if (!(await readAll()).some(({ id }) => id === webhook.id)) return
        const recent = [delivery, ...state.recent].slice(0, recentKept)
        if (!delivery.good) {
          const failed = afterFailure({ ...state, recent }, now())
          await writeState(webhook.id, failed)
          if (failed.dead)
            say(`webhook to ${new URL(webhook.url).host}: given up after ${mostFailures} failures: ${delivery.says}`)
          return
        }
        state = { ...state, cursor: entry.seq, failures: 0, nextAt: null, recent }
        await writeState(webhook.id, state)
      }
      await writeState(webhook.id, state)
      /* oxlint-enable no-await-in-loop */
    }
  }

  const tell = (): Promise<void> =>
    inTurn(async () => {
      // One process at a time: two would tell the same twice, and out of order.
      await journal.alone(`webhooks ${site}`, async () => {
        await Promise.all((await readAll()).map(tellOne))
      })
    })
  const tellSoon = (): void => {
    if (!stopped)
      tell().catch((error: unknown) => say(`webhooks: ${error instanceof Error ? error.message : String(error)}`))
  }
  const ends: (() => void)[] = []

  return {
    async list() {
      const [all, head] = await Promise.all([readAll(), headSeq()])
      return await Promise.all(
        all.map(async ({ id, url, kinds, madeAt }) => {
          const state = (await readState(id)) ?? fresh(head)
          return { id, url, kinds, madeAt, ...state, behind: Math.max(0, head - state.cursor) }
        }),
      )
    },
    async add({ url, kinds }) {
      const webhook = { id: v7(), url, kinds, secret: newSecret(), madeAt: now() }
      await writeState(webhook.id, fresh(await headSeq()))
      await notes.write(listNote, JSON.stringify([...(await readAll()), webhook]))
      return webhook
    },
    async remove(id) {
      const all = await readAll()
      await notes.write(listNote, JSON.stringify(all.filter((each) => each.id !== id)))
      await notes.clear(stateNote(id))
      return all.some((each) => each.id === id)
    },
    async resume(id) {
      const state = await readState(id)
      if (state === undefined) return false
      await writeState(id, { ...state, failures: 0, nextAt: null, dead: false })
      tellSoon()
      return true
    },
    async test(id) {
      const webhook = (await readAll()).find((each) => each.id === id)
      if (webhook === undefined) return undefined
      return await send(webhook, `test-${v7()}`, 'test', { type: 'test', timestamp: now(), data: { site } })
    },
    tell,
    start() {
      const timer = setInterval(tellSoon, lookEveryMilliseconds)
      timer.unref()
      ends.push(() => clearInterval(timer), journal.subscribe(tellSoon))
    },
    async stop() {
      stopped = true
      for (const end of ends) end()
      await inTurn(() => Promise.resolve())
    },
  }
}

function fresh(cursor: number): WebhookState {
  return { cursor, failures: 0, nextAt: null, dead: false, recent: [] }
}

function afterFailure(state: WebhookState, at: Instant): WebhookState {
  const failures = state.failures + 1
  const seconds = Math.min(longestWaitSeconds, firstWaitSeconds * 2 ** (failures - 1))
  return { ...state, failures, nextAt: instant(millis(at) + seconds * 1000), dead: failures >= mostFailures }
}

/** What is told: which entry, of what kind, about what. Not what it says: whoever may read that asks for the entry. */
function eventOf(entry: KeptEntry): object {
  const read = readEntry(entry)
  const subjects = read.kind === 'typed' ? about(read.entry).subjects : []
  const { id, site, seq, kind, happenedAt, recordedAt, hash } = entry
  return { type: kind, timestamp: recordedAt, data: { entry: id, site, seq, happenedAt, subjects, hash } }
}
