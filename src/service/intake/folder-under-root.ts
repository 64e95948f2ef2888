import { lstatSync, realpathSync, statSync } from 'node:fs'
import { isAbsolute, join, sep } from 'node:path'
import type { Problem } from '#units/problem.ts'

type Found =
  | { readonly kind: 'folder'; readonly path: string }
  | { readonly kind: 'problem'; readonly problem: Problem }

/**
 * A folder that may be watched: one below the configured root, by a path that neither climbs out nor goes through a link. Looked at
 * anew each time, since what lies in a share may be changed by others.
 */
export function folderUnderRoot(root: string | null, folder: string): Found {
  const refuse = (wanted: string, current = JSON.stringify(folder)): Found => ({
    kind: 'problem',
    problem: { field: 'folder', wanted, current },
  })
  if (root === null) return refuse('none: NILGROWTH_MACHINE_FOLDERS names no folder under which machines write')
  const parts = folder.split(/[/\\]/)
  const climbs = parts.some((part) => part === '..' || part === '.' || part === '')
  if (isAbsolute(folder) || climbs || /^[a-z]:/i.test(folder) || folder.includes('\u0000'))
    return refuse('the path of a folder below the root, such as steriliser-a, without ".." in it')
  try {
    const top = realpathSync(root)
    let path = top
    for (const part of parts) {
      path = join(path, part)
      if (lstatSync(path).isSymbolicLink())
        return refuse('a folder, no link', `${JSON.stringify(part)}, which is a link`)
    }
    const real = realpathSync(path)
    if (!real.startsWith(top.endsWith(sep) ? top : `${top}${sep}`)) return refuse('a folder below the root')
    return statSync(real).isDirectory() ? { kind: 'folder', path: real } : refuse('a folder', 'a file')
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unreadable'
    return refuse('a folder that is there and may be read', `${JSON.stringify(folder)} (${code})`)
  }
}
