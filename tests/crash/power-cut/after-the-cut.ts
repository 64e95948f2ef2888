import { dirname } from 'node:path'
import type { DiskEvent } from './recording.ts'

/*
 * What a disk may hold when the power goes. Sure is what was written before the last sync of the file. Of what was
 * written since, each sector of 512 bytes may have arrived or not, in any order: so a write may be torn, and a later one may be
 * there without an earlier one. The name of a new file is sure after a sync of its folder, and so is a removal.
 * Not modelled: a disk that says synced and is not, and one that damages a sector while it loses power.
 */

const sector = 512

interface Change {
  readonly offset: number
  readonly data: Buffer
}
type Pending = Change | { readonly cutTo: number }

interface FileState {
  readonly sure: Content
  pending: Pending[]
  /** Whether the name is sure to be there, or sure to be gone; undefined while either may be. */
  named: boolean | undefined
  exists: boolean
}

/** The chances of what was not synced: all of it arrived, none, or each sector by itself. */
type Luck = 'all' | 'none' | 'each'

/** The files after a power cut behind so many events. */
export function filesAfter(
  events: readonly DiskEvent[],
  {
    count,
    random,
    trustSyncs = true,
  }: { readonly count: number; readonly random: () => number; readonly trustSyncs?: boolean },
): Map<string, Buffer> {
  const files = new Map<string, FileState>()
  for (const event of events.slice(0, count)) {
    if (event.kind === 'told') continue
    if (event.kind === 'synced' && !trustSyncs && event.path.endsWith('-wal')) continue
    take(files, event)
  }
  const chance = random()
  const luck: Luck = chance < 0.2 ? 'all' : chance < 0.5 ? 'none' : 'each'
  const left = new Map<string, Buffer>()
  for (const [path, state] of files) {
    const there = state.named ?? (luck === 'each' ? random() < 0.5 : (luck === 'all') === state.exists)
    if (there) left.set(path, contentAfter(state, luck, random))
  }
  return left
}

function newFile(): FileState {
  return { sure: new Content(), pending: [], named: undefined, exists: true }
}

function take(files: Map<string, FileState>, event: Exclude<DiskEvent, { kind: 'told' }>): void {
  if (event.kind === 'synced' && !files.has(event.path)) {
    for (const [path, state] of files) if (dirname(path) === event.path) state.named = state.exists
    return
  }
  const state = files.get(event.path) ?? newFile()
  files.set(event.path, state)
  switch (event.kind) {
    case 'made':
      files.set(event.path, newFile())
      break
    case 'removed':
      state.exists = false
      state.named = undefined
      break
    case 'written':
      state.pending.push(event)
      break
    case 'cut':
      state.pending.push({ cutTo: event.length })
      break
    case 'synced':
      for (const change of state.pending) state.sure.apply(change)
      state.pending = []
      break
  }
}

function contentAfter({ sure, pending }: FileState, luck: Luck, random: () => number): Buffer {
  for (const change of luck === 'none' ? [] : pending) {
    const pieces = luck === 'all' || 'cutTo' in change ? [change] : sectorsOf(change)
    for (const piece of pieces) if (luck === 'all' || random() < 0.5) sure.apply(piece)
  }
  return sure.bytes()
}

/** A change cut where sectors end. */
function sectorsOf({ offset, data }: Change): Change[] {
  const pieces: Change[] = []
  let at = 0
  while (at < data.length) {
    const end = Math.min(data.length, at + sector - ((offset + at) % sector))
    pieces.push({ offset: offset + at, data: data.subarray(at, end) })
    at = end
  }
  return pieces
}

/** The bytes of a file, with room to grow. */
class Content {
  #bytes = Buffer.alloc(0)
  #length = 0

  apply(change: Pending): void {
    if ('cutTo' in change) this.#resize(change.cutTo)
    else {
      this.#resize(Math.max(this.#length, change.offset + change.data.length))
      change.data.copy(this.#bytes, change.offset)
    }
  }

  bytes(): Buffer {
    return this.#bytes.subarray(0, this.#length)
  }

  #resize(length: number): void {
    if (length > this.#bytes.length) {
      const grown = Buffer.alloc(length * 2)
      this.#bytes.copy(grown, 0, 0, this.#length)
      this.#bytes = grown
    } else if (length < this.#length) this.#bytes.fill(0, length, this.#length)
    this.#length = length
  }
}
