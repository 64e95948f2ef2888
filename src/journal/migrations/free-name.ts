import { existsSync } from 'node:fs'

/** The first of NAME, NAME-2, NAME-3 … that no file has: an earlier backup is never overwritten. */
export function freeName(name: string, ending = ''): string {
  for (let number = 1; ; number += 1) {
    const file = number === 1 ? `${name}${ending}` : `${name}-${number}${ending}`
    if (!existsSync(file)) return file
  }
}
