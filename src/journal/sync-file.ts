import { closeSync, fsyncSync, openSync } from 'node:fs'

/** Waits until what was written to a file is on the disk. */
export function syncFile(file: string): void {
  sync(file, 'r+')
}

/** Waits until the names in a folder are on the disk: a new file can vanish in a power cut with all that is in it. */
export function syncFolder(folder: string): void {
  // Windows writes the names by itself and gives no handle on a folder.
  if (process.platform !== 'win32') sync(folder, 'r')
}

function sync(path: string, flags: 'r' | 'r+'): void {
  const handle = openSync(path, flags)
  try {
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
}
