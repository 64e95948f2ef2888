import { constants } from 'node:fs'
import { type FileHandle, lstat, open, opendir } from 'node:fs/promises'
import { join } from 'node:path'

/** A file as it lies in the folder; what it weighs and when it was written tell whether it is still being written. */
export interface SeenFile {
  readonly name: string
  readonly bytes: number
  readonly writtenAt: number
}

export interface FolderLook {
  /** Whole files that were not taken yet, the oldest first. */
  readonly whole: readonly SeenFile[]
  /** Names that were passed over, since they are links or no files. */
  readonly passedOver: number
  /** How many files there are beyond those that are looked at. */
  readonly beyond: number
}

export interface WatchedFolder {
  readonly look: (path: string) => Promise<FolderLook>
  /** Not offered again, unless it is written anew. */
  readonly taken: (file: SeenFile) => void
}

/** So many of the newest files are looked at: a folder that is never cleared does not slow the service. */
export const mostFiles = 500
const mostNames = 20_000

/** Names under which programs write until a file is whole, and what no machine writes. */
const unfinished = /^[.~]|\.(?:tmp|temp|part|partial|crdownload|filepart|swp|lock)$|~$/i

interface WatchOptions {
  /** A machine may write a row every few seconds or once a minute: a file is whole when nothing was added to it for so long, in ms. */
  readonly quietFor: number
  /** A clock that only goes on: that of the share may be any. */
  readonly now?: () => number
}

/**
 * Looks at a folder by asking for it, since shares of other computers tell of no changes. A file is whole when all looks
 * found it alike for long enough.
 */
export function watchedFolder({ quietFor, now = () => performance.now() }: WatchOptions): WatchedFolder {
  const done = new Map<string, string>()
  let before = new Map<string, { readonly stamp: string; readonly since: number }>()
  return {
    async look(path) {
      const { files, passedOver } = await filesIn(path)
      const newest = files.toSorted((a, b) => b.writtenAt - a.writtenAt).slice(0, mostFiles)
      const at = now()
      before = new Map(
        newest.map((file) => {
          const last = before.get(file.name)
          return [file.name, last?.stamp === stamp(file) ? last : { stamp: stamp(file), since: at }]
        }),
      )
      const isQuiet = ({ name }: SeenFile) => at - (before.get(name)?.since ?? at) >= quietFor
      const whole = newest.filter((file) => file.bytes > 0 && isQuiet(file) && done.get(file.name) !== stamp(file))
      return { whole: whole.toReversed(), passedOver, beyond: files.length - newest.length }
    },
    taken: (file) => done.set(file.name, stamp(file)),
  }
}

function stamp({ bytes, writtenAt }: SeenFile): string {
  return `${bytes} ${writtenAt}`
}

async function filesIn(path: string): Promise<{ files: SeenFile[]; passedOver: number }> {
  const files: SeenFile[] = []
  let passedOver = 0
  let names = 0
  for await (const { name } of await opendir(path)) {
    names += 1
    if (names > mostNames) break
    if (unfinished.test(name)) continue
    const about = await lstat(join(path, name)).catch(() => undefined)
    if (about === undefined) continue
    if (about.isFile()) files.push({ name, bytes: about.size, writtenAt: Math.round(about.mtimeMs) })
    else passedOver += 1
  }
  return { files, passedOver }
}

/** The bytes of a file that is no link; undefined where it is not as it was seen, so that it is looked at again. */
export async function readWhole(path: string, file: SeenFile): Promise<Uint8Array | undefined> {
  let handle: FileHandle | undefined
  try {
    handle = await open(join(path, file.name), constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0))
    const about = await handle.stat()
    if (!about.isFile() || about.size !== file.bytes) return undefined
    const bytes = await handle.readFile()
    return bytes.length === file.bytes ? bytes : undefined
  } catch {
    return undefined
  } finally {
    await handle?.close()
  }
}
