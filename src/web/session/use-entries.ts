import { useQueryClient } from '@tanstack/react-query'
import { useRef, useState } from 'react'
import { v7 } from 'uuid'
import type { EntryId, SentEntry, SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Bodies, KindName } from '#road/kinds.ts'
import type { EntryAnswer } from '#service/api-types.ts'
import { post, ProblemError } from '../api/client.ts'
import { useStore } from './use-store.ts'
import { useUnit } from './unit.ts'
import { whoStore, workstationStore } from './who.ts'

/** What became of one entry of a list. */
export interface Sent<Kind extends KindName> {
  readonly body: Bodies[Kind]
  /** Null when it was kept; the reason when it was not. */
  readonly refused: Error | null
}

/**
 * Makes and sends many entries of one kind as a list: each is its own entry, kept or not by itself. A body has one id
 * until the list is answered, so that pressing again after a lost answer makes none of them twice.
 */
export function useEntries<Kind extends KindName>(kind: Kind) {
  const { site } = useUnit()
  const by = useStore(whoStore)
  const workstation = useStore(workstationStore)
  const client = useQueryClient()
  const entries = useRef(new Map<string, SentEntry>())
  const [sending, setSending] = useState(false)
  const [error, setError] = useState<Error | null>(null)

  const entryOf = (body: Bodies[Kind], by: SentEntry['by']): SentEntry => {
    const key = JSON.stringify([by, body])
    const made = entries.current.get(key)
    if (made !== undefined) return made
    const entry: SentEntry = {
      id: v7() as EntryId,
      site: site as SiteId,
      kind,
      happenedAt: new Date().toISOString() as Instant,
      by,
      workstation,
      // A body is plain JSON by its schema; what is undefined falls away in the text that is sent.
      body: body as SentEntry['body'],
    }
    entries.current.set(key, entry)
    return entry
  }

  /** What became of each, in the order given; nothing when the list was not answered, with the error told beside. */
  const send = async (bodies: readonly Bodies[Kind][]): Promise<readonly Sent<Kind>[]> => {
    if (by === null || sending || bodies.length === 0) return []
    setSending(true)
    setError(null)
    try {
      const list = bodies.map((body) => entryOf(body, by))
      const answers = await post<readonly EntryAnswer[]>('/api/entries', list)
      entries.current.clear()
      void client.invalidateQueries()
      return bodies.map((body, place) => ({ body, refused: refusalOf(answers[place]) }))
    } catch (error) {
      setError(error instanceof Error ? error : new Error(String(error)))
      return []
    } finally {
      setSending(false)
    }
  }

  return { by, sending, error, send }
}

function refusalOf(answer: EntryAnswer | undefined): Error | null {
  if (answer === undefined) return new Error('No answer for this entry.')
  return 'problem' in answer ? new ProblemError(answer.problem) : null
}
