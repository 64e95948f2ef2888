import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import type { Place } from './place.ts'

const prefix = 'nilgrowth-work-'

/** Beside the record, where there is room for a copy of it and nobody else may read; the system's own for a server. */
export function workFolder(at: Place): { folder: string; remove: () => void } {
  const where = whereOf(at)
  mkdirSync(where, { recursive: true })
  const folder = mkdtempSync(join(where, `${prefix}${process.pid}-`))
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) }
}

/**
 * Takes away what a backup that was cut short left behind, since it holds the record in the clear. To be called while this
 * process makes none.
 */
export function sweepWorkFolders(at: Place): void {
  const where = whereOf(at)
  if (!existsSync(where)) return
  for (const name of readdirSync(where)) {
    const pid = Number(new RegExp(`^${prefix}(\\d+)-`).exec(name)?.[1])
    if (Number.isInteger(pid) && (pid === process.pid || !isAlive(pid))) {
      rmSync(join(where, name), { recursive: true, force: true })
    }
  }
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    // Of another user: alive, and no business of ours.
    return error instanceof Error && 'code' in error && error.code === 'EPERM'
  }
}

function whereOf(at: Place): string {
  return at.kind === 'sqlite' ? dirname(at.file) : tmpdir()
}
