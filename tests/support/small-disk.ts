import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** A real file system of a few megabytes, which can be filled and made read-only. */
export interface SmallDisk extends Disposable {
  readonly folder: string
  makeReadOnly(): void
}

/** Why there is none here, or false: mounting needs Linux and its administrator. */
export function noSmallDisk(): string | false {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return 'mounting a small disk needs root on Linux'
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-mount-'))
  const tried = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=1m', 'tmpfs', folder])
  if (tried.status === 0) execFileSync('umount', [folder])
  rmSync(folder, { recursive: true })
  return tried.status === 0 ? false : 'this machine lets nobody mount a small disk'
}

export function smallDisk(megabytes: number): SmallDisk {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-disk-'))
  execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${megabytes}m`, 'tmpfs', folder])
  return {
    folder,
    makeReadOnly: () => void execFileSync('mount', ['-o', 'remount,ro', folder]),
    [Symbol.dispose]() {
      execFileSync('umount', ['-l', folder])
      rmSync(folder, { recursive: true })
    },
  }
}
