import { existsSync, readdirSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { type Place, upgradeFolderOf } from '../place.ts'

/** What stands beside a store that was made of it: set aside by a restore, or kept by an upgrade. No erasure reaches there. */
export async function copiesBeside(at: Place): Promise<readonly string[]> {
  if (at.kind === 'sqlite') {
    const name = basename(at.file)
    return filesOf(dirname(at.file), [`${name}.replaced-`, `${name}.before-format-`])
  }
  // Loaded when it is wanted: a unit on SQLite never needs it.
  const { schemaOf } = await import('../postgres/schema-of.ts')
  const { schemasSetAside } = await import('../postgres/schemas.ts')
  const schemas = await schemasSetAside(at)
  return [
    ...schemas.map((schema) => `schema ${schema}`),
    ...filesOf(upgradeFolderOf(at), [`${schemaOf(at)}-before-format-`]),
  ]
}

function filesOf(folder: string, beginnings: readonly string[]): readonly string[] {
  if (!existsSync(folder)) return []
  return readdirSync(folder)
    .filter((name) => beginnings.some((beginning) => name.startsWith(beginning)) && !/-(?:wal|shm)$/.test(name))
    .sort()
    .map((name) => join(folder, name))
}
