import type { Reader } from '#journal/journal.ts'
import type { LiveChange } from '../api-types.ts'
import { changeOf } from './change-of.ts'

/** The end of the record, read once for all who follow it. */
export interface RecordTail {
  /** The number of the last entry that was read, or undefined while nobody has looked. */
  readonly position: () => number | undefined
  /** The changes after `seq`, or undefined when they are no longer held and have to be read from the record. */
  readonly after: (seq: number) => readonly LiveChange[] | undefined
  /** Reads on to the end of the record. Asking while it reads makes it look once more. */
  readonly readOn: () => void
  /** Forgets everything, so that nothing is kept up while nobody follows. */
  readonly forget: () => void
}

const pageSize = 200
/** As many as a burst may bring before a follower is slow: then it reads the record by itself. */
const mostHeld = 200

/** `moved` is called whenever there is something new to tell. */
export function recordTail(reader: Reader, moved: () => void): RecordTail {
  let position: number | undefined
  let held: LiveChange[] = []
  let state: 'idle' | 'reading' | 'readingAndAsked' = 'idle'
  // A reading that was begun before everything was forgotten must not be believed.
  let reading = 0
  const isCurrent = (own: number) => own === reading

  const readPage = async (from: number, own: number): Promise<number> => {
    const entries = await reader.entries({ afterSeq: from, limit: pageSize })
    const changes = await Promise.all(entries.map((entry) => changeOf(reader, entry)))
    if (isCurrent(own) && changes.length > 0) {
      held = [...held, ...changes].slice(-mostHeld)
      position = changes.at(-1)?.seq ?? from
      moved()
    }
    return changes.length
  }

  const read = async (own: number): Promise<void> => {
    if (position === undefined) {
      const head = (await reader.head())?.seq ?? 0
      if (!isCurrent(own)) return
      position = head
      moved()
    }
    while (isCurrent(own) && ((await readPage(position, own)) > 0 || state === 'readingAndAsked')) state = 'reading'
    // At once with the last look, so that no asking falls between.
    if (isCurrent(own)) state = 'idle'
  }

  const readOn = (): void => {
    if (state !== 'idle') {
      state = 'readingAndAsked'
      return
    }
    state = 'reading'
    const own = reading
    void read(own).catch(() => {
      // The database is away for a moment: the next look goes on from the same place, and nothing is missed.
      if (isCurrent(own)) state = 'idle'
    })
  }

  return {
    position: () => position,
    after(seq) {
      const [first] = held
      return first === undefined || first.seq > seq + 1 ? undefined : held.filter((change) => change.seq > seq)
    },
    readOn,
    forget() {
      reading += 1
      state = 'idle'
      position = undefined
      held = []
    },
  }
}
