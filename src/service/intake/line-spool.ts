import { existsSync, mkdirSync, readdirSync, readFileSync, statSync } from 'node:fs'
import { type FileHandle, open, rename, rm } from 'node:fs/promises'
import { join } from 'node:path'

/** What a machine has printed of the cycle that is running, on the disk line by line: a crash keeps what was printed. */
export interface LineSpool {
  /** On the disk when the promise is kept. */
  readonly write: (lines: readonly string[]) => Promise<void>
  /** Everything that was printed of the running cycle. */
  readonly text: () => string
  readonly bytes: () => number
  /** When the last line came, also by what was there before this process; null while nothing is printed. */
  readonly lastAt: () => number | null
  /** Puts the cycle aside under a name of its own and begins a new one; gives its file. */
  readonly end: () => Promise<string>
  readonly close: () => Promise<void>
}

const openName = 'running.txt'

export function lineSpool(folder: string, now: () => number): LineSpool {
  mkdirSync(folder, { recursive: true })
  const file = join(folder, openName)
  let text = existsSync(file) ? readFileSync(file, 'utf8') : ''
  let lastAt = text === '' ? null : statSync(file).mtimeMs
  let handle: FileHandle | undefined
  return {
    async write(lines) {
      const added = lines.map((line) => `${line}\n`).join('')
      handle ??= await open(file, 'a')
      await handle.appendFile(added)
      await handle.datasync()
      text += added
      lastAt = now()
    },
    text: () => text,
    bytes: () => Buffer.byteLength(text),
    lastAt: () => lastAt,
    async end() {
      await handle?.close()
      handle = undefined
      const ended = freeName(folder, Math.round(lastAt ?? now()))
      await rename(file, ended)
      text = ''
      lastAt = null
      return ended
    },
    async close() {
      await handle?.close()
      handle = undefined
    },
  }
}

/** Cycles that were ended, also by a process before this one, and that nobody has taken over yet. */
export function endedIn(folder: string): readonly { readonly file: string; readonly at: number }[] {
  return readdirSync(folder).flatMap((name) => {
    const at = /^ended-(\d+)-\d+\.txt$/.exec(name)?.[1]
    return at === undefined ? [] : [{ file: join(folder, name), at: Number(at) }]
  })
}

/** Two cycles may end at once: neither takes the place of the other. */
function freeName(folder: string, at: number): string {
  for (let number = 1; ; number += 1) {
    const file = join(folder, `ended-${at}-${number}.txt`)
    if (!existsSync(file)) return file
  }
}

/** Takes an ended cycle away once it is kept elsewhere. */
export async function forgetEnded(file: string): Promise<void> {
  await rm(file, { force: true })
}
