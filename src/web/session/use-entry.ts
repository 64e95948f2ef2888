import { useQueryClient } from '@tanstack/react-query'
import { useRef, useState } from 'react'
import { v7 } from 'uuid'
import type { EntryId, SentEntry, SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Bodies, KindName } from '#road/kinds.ts'
import type { Finding } from '#road/finding.ts'
import { sendEntry, type Sent, UnansweredError } from '../offline/outbox.ts'
import { words } from '../words/words.ts'
import { useStore } from './use-store.ts'
import { useUnit } from './unit.ts'
import { whoStore, workstationStore } from './who.ts'

export type EntryProgress =
  | { readonly at: 'ready' | 'sending' | 'waiting' }
  | { readonly at: 'kept'; readonly findings: readonly Finding[] }
  | { readonly at: 'refused'; readonly error: Error }

export type Outcome = Sent['outcome']

/** What a form adds to the body of its entry. */
export interface EntryExtras {
  readonly happenedAt?: string
  readonly exception?: SentEntry['exception']
  readonly corrects?: EntryId
}

/**
 * Makes and sends the entries of one form. The id of an entry is made once and kept until the
 * entry is kept, so that pressing twice or pressing again after a lost answer makes one entry.
 */
export function useEntry<Kind extends KindName>(kind: Kind) {
  const { site } = useUnit()
  const by = useStore(whoStore)
  const workstation = useStore(workstationStore)
  const client = useQueryClient()
  const id = useRef(v7())
  const unanswered = useRef<SentEntry | null>(null)
  const [progress, setProgress] = useState<EntryProgress>({ at: 'ready' })

  /** The entry as it would be sent; null while nobody is chosen. */
  const draft = (body: Bodies[Kind], extras: EntryExtras = {}): SentEntry | null => {
    if (by === null) return null
    const { happenedAt = new Date().toISOString(), exception, corrects } = extras
    return {
      id: id.current as EntryId,
      site: site as SiteId,
      kind,
      happenedAt: happenedAt as Instant,
      by,
      workstation,
      // A body is plain JSON by its schema; what is undefined falls away in the text that is sent.
      body: body as SentEntry['body'],
      ...(exception === undefined ? {} : { exception }),
      ...(corrects === undefined ? {} : { corrects }),
    }
  }

  /** Whether the service has kept it or it waits here to be sent; null when neither is so, and the form holds it. */
  const send = async (body: Bodies[Kind], extras?: EntryExtras): Promise<Outcome | null> => {
    const drafted = draft(body, extras)
    if (drafted === null || progress.at === 'sending') return null
    const entry = sameAgain(drafted, unanswered.current, extras)
    setProgress({ at: 'sending' })
    try {
      const sent = await sendEntry(entry, words.unit.entryKinds[kind] ?? kind)
      id.current = v7()
      unanswered.current = null
      setProgress(sent.outcome === 'kept' ? { at: 'kept', findings: sent.answer.findings } : { at: 'waiting' })
      void client.invalidateQueries()
      return sent.outcome
    } catch (error) {
      unanswered.current = error instanceof UnansweredError ? entry : null
      setProgress({ at: 'refused', error: error instanceof Error ? error : new Error(String(error)) })
      return null
    }
  }

  return { by, progress, draft, send }
}

/** Nobody knows whether it was recorded: said again it is the same entry, with the time at which it was first said. */
function sameAgain(entry: SentEntry, before: SentEntry | null, { happenedAt }: EntryExtras = {}): SentEntry {
  if (before === null || happenedAt !== undefined) return entry
  const again = { ...entry, happenedAt: before.happenedAt }
  return JSON.stringify(again) === JSON.stringify(before) ? before : entry
}
