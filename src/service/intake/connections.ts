import { z } from 'zod'
import type { Problem } from '#units/problem.ts'
import type { SiteId } from '#road/entry.ts'
import { Instant } from '#road/instant.ts'
import { methodOf } from '#road/sterilising/method-of.ts'
import type { MachineKnown } from '#road/sterilising/machine-fold.ts'
import { type SubjectId, subjectOf } from '#road/subject.ts'
import type { Notes } from '#journal/journal.ts'
import type { MachineSettings } from '../config.ts'
import { MachineConnection } from '../machine-answers.ts'
import { folderUnderRoot } from './folder-under-root.ts'

/** How a machine is connected, and who said so. */
export const KeptConnection = z.strictObject({
  machine: subjectOf('machine'),
  connection: MachineConnection,
  changedBy: z.string(),
  changedAt: Instant,
})
export type KeptConnection = z.infer<typeof KeptConnection>

const KeptConnections = z.array(KeptConnection).max(200)

export const notConnected: MachineConnection = { folder: null, line: null }

/** The connections of a site's machines, beside the record: they say how a service hears, not what a machine did. */
export interface Connections {
  readonly all: () => Promise<readonly KeptConnection[]>
  readonly of: (machine: SubjectId<'machine'>) => Promise<KeptConnection | undefined>
  readonly set: (kept: KeptConnection) => Promise<void>
}

export function connectionsOf(notes: Notes, site: SiteId): Connections {
  const name = `machine connections ${site}`
  const all = async (): Promise<readonly KeptConnection[]> => {
    const text = await notes.read(name)
    return text === undefined ? [] : KeptConnections.parse(JSON.parse(text))
  }
  return {
    all,
    of: async (machine) => (await all()).find((each) => each.machine === machine),
    async set(kept) {
      const others = (await all()).filter((each) => each.machine !== kept.machine)
      const isOff = kept.connection.folder === null && kept.connection.line === null
      // Who switched it off stays to be seen.
      await notes.write(name, JSON.stringify([...others, isOff ? { ...kept, connection: notConnected } : kept]))
    },
  }
}

interface Asked {
  readonly machine: MachineKnown
  readonly connection: MachineConnection
  readonly others: readonly KeptConnection[]
  readonly settings: MachineSettings
}

/** What is wrong with a connection as this service is configured; none when it can be used. */
export function problemsOfConnection({ machine, connection, others, settings }: Asked): readonly Problem[] {
  const { folder, line } = connection
  if (folder === null && line === null) return []
  if (methodOf(machine) === undefined) {
    return [{ field: 'machine', wanted: 'a machine that sterilises in a chamber', current: `"${machine.type}"` }]
  }
  const problems: Problem[] = []
  if (folder !== null) {
    const found = folderUnderRoot(settings.folderRoot, folder)
    if (found.kind === 'problem') problems.push(found.problem)
    if (others.some((each) => each.machine !== machine.id && each.connection.folder === folder))
      problems.push({
        field: 'folder',
        wanted: 'a folder that no other machine writes to',
        current: `${JSON.stringify(folder)}, which is that of another machine`,
      })
  }
  if (line !== null) problems.push(...problemsOfLine(line, machine.id, others, settings))
  return problems
}

function problemsOfLine(
  line: NonNullable<MachineConnection['line']>,
  machine: SubjectId<'machine'>,
  others: readonly KeptConnection[],
  { addresses }: MachineSettings,
): readonly Problem[] {
  const { address, port } = line
  const problems: Problem[] = []
  if (!addresses.includes(address)) {
    const wanted =
      addresses.length === 0
        ? 'none: NILGROWTH_MACHINE_LISTEN names no address to listen on'
        : `one of NILGROWTH_MACHINE_LISTEN: ${addresses.join(', ')}`
    problems.push({ field: 'line.address', wanted, current: JSON.stringify(address) })
  }
  const taken = others.some(
    (each) =>
      each.machine !== machine && each.connection.line?.port === port && each.connection.line.address === address,
  )
  if (taken)
    problems.push({ field: 'line.port', wanted: 'a port of its own', current: `${port}, that of another machine` })
  return problems
}
