import { join } from 'node:path'
import { describeProblem } from '#units/problem.ts'
import { instant } from '#road/instant.ts'
import { subjectKey, type SubjectId } from '#road/subject.ts'
import { oneAtATime } from '#journal/one-at-a-time.ts'
import type { MachineSettings } from '../config.ts'
import type { RecordContext, ServiceContext } from '../context.ts'
import type { LineSettings, PracticeInput } from '../machine-answers.ts'
import type { Say } from '../operation/log.ts'
import { type Arrivals, arrivalsOf } from './arrivals.ts'
import { type Connections, connectionsOf, type KeptConnection } from './connections.ts'
import { folderUnderRoot } from './folder-under-root.ts'
import { type LineListener, listenToLine, type Running } from './line-listener.ts'
import { type PracticeMachines, practiceMachines } from './practice-machine.ts'
import { mostFiles, readWhole, type SeenFile, type WatchedFolder, watchedFolder } from './watched-folder.ts'

type Machine = SubjectId<'machine'>

/** Hears the machines that are connected, and keeps what they print or write. */
export interface Intake {
  readonly settings: MachineSettings
  readonly connections: Connections
  readonly arrivals: Arrivals
  readonly running: (machine: Machine) => Running | undefined
  readonly says: (machine: Machine) => { readonly folder: string | null; readonly line: string | null }
  /** Takes up what was changed, and looks into the folders. */
  readonly look: () => Promise<void>
  /** Calls back when a machine has printed. Gives the function that ends it. */
  readonly onHeard: (listener: (machine: Machine) => void) => () => void
  readonly practice: Pick<PracticeMachines, 'of'>
  /** Lets a simulated machine print to a listener on this computer; gives false while it prints. */
  readonly practise: (wanted: PracticeInput & { readonly machine: Machine }) => Promise<boolean>
  readonly close: () => Promise<void>
}

interface IntakeOptions extends RecordContext {
  readonly now: ServiceContext['now']
  readonly settings: MachineSettings
  readonly mostBytes: number
  readonly log: Say
  readonly lookEveryMilliseconds?: number
}

interface Watched {
  readonly folder: string
  readonly files: WatchedFolder
  says: string
}

interface Heard {
  readonly settings: LineSettings
  listener: LineListener | undefined
  says: string
}

/** A simulated machine prints with these marks. */
const practiceLine: LineSettings = {
  address: '127.0.0.1',
  port: 1024,
  from: '127.0.0.1',
  startMark: null,
  endMark: 'cycle end',
  silenceSeconds: 60,
}

export function intakeOf(options: IntakeOptions): Intake {
  const { journal, site, settings, log } = options
  const connections = connectionsOf(journal.notes, site)
  const arrivals = arrivalsOf(options)
  const watched = new Map<Machine, Watched>()
  const lines = new Map<Machine, Heard>()
  const practising = new Map<Machine, LineListener>()
  const practice = practiceMachines(log)
  const listeners = new Set<(machine: Machine) => void>()
  const inTurn = oneAtATime()
  let closed = false

  const listen = (machine: Machine, line: LineSettings, port: number | undefined) =>
    listenToLine({
      machine,
      settings: line,
      ...(port === undefined ? {} : { port }),
      folder: join(settings.linesFolder, site, `${subjectKey(machine)}${port === undefined ? '' : '-practice'}`),
      take: arrivals.take,
      mostBytes: options.mostBytes,
      now: () => Date.now(),
      log,
      heard: () => {
        for (const each of listeners) each(machine)
      },
    })

  const lookIntoFolder = async ({ machine, connection: { folder } }: KeptConnection): Promise<void> => {
    if (folder === null) {
      watched.delete(machine)
      return
    }
    const before = watched.get(machine)
    const here =
      before?.folder === folder
        ? before
        : { folder, files: watchedFolder({ quietFor: settings.quietSeconds * 1000 }), says: '' }
    watched.set(machine, here)
    const found = folderUnderRoot(settings.folderRoot, folder)
    if (found.kind === 'problem') {
      here.says = describeProblem(found.problem)
      return
    }
    const seen = await here.files.look(found.path)
    for (const file of seen.whole) {
      // One after the other, so that a full folder leaves room for everything else.
      // oxlint-disable-next-line no-await-in-loop
      if (await takeFile(machine, found.path, file)) here.files.taken(file)
    }
    here.says = [
      `Watches ${folder}.`,
      ...(seen.beyond === 0
        ? []
        : [`Only the newest ${mostFiles} files are looked at; there are ${seen.beyond} more.`]),
      ...(seen.passedOver === 0 ? [] : [`${seen.passedOver} links and folders in it are passed over.`]),
    ].join(' ')
  }

  /** Whether the file is done with: what could not be read just now is looked at again. */
  const takeFile = async (machine: Machine, path: string, file: SeenFile): Promise<boolean> => {
    const { name, bytes: size } = file
    if (size > options.mostBytes) {
      const problem = `file: wanted at most ${options.mostBytes} bytes, current value is ${size}. It lies where it was written`
      await arrivals.setAside(machine, { name, bytes: size, from: 'folder' }, problem)
      return true
    }
    const bytes = await readWhole(path, file)
    if (bytes === undefined) return false
    await arrivals.take({ machine, from: 'folder', name, bytes, writtenAt: instant(file.writtenAt), note: null })
    return true
  }

  const takeUpLine = async ({ machine, connection: { line } }: KeptConnection): Promise<void> => {
    const before = lines.get(machine)
    if (before !== undefined && JSON.stringify(before.settings) === JSON.stringify(line)) {
      if (before.listener !== undefined) return
    } else {
      lines.delete(machine)
      await before?.listener?.close()
    }
    if (line === null) return
    const heard: Heard = { settings: line, listener: undefined, says: '' }
    lines.set(machine, heard)
    if (!settings.addresses.includes(line.address)) {
      heard.says = `Does not listen: ${line.address} is not among NILGROWTH_MACHINE_LISTEN of this service.`
      return
    }
    try {
      heard.listener = await listen(machine, line, undefined)
    } catch (error) {
      heard.says = `Cannot listen on ${line.address}, port ${line.port}: ${error instanceof Error ? error.message : 'unknown'}. It is tried again.`
    }
  }

  const look = (): Promise<void> =>
    inTurn(async () => {
      if (closed) return
      for (const kept of await connections.all()) {
        // oxlint-disable-next-line no-await-in-loop
        await takeUpLine(kept)
        // oxlint-disable-next-line no-await-in-loop
        await lookIntoFolder(kept).catch((error: unknown) => {
          const here = watched.get(kept.machine)
          const why = error instanceof Error ? error.message : 'unknown'
          if (here !== undefined) here.says = `The folder cannot be looked into: ${why}. It is tried again.`
        })
      }
    })

  const timer = setInterval(() => {
    look().catch((error: unknown) => log(`machines: cannot look what came: ${String(error)}`))
  }, options.lookEveryMilliseconds ?? 2000)
  timer.unref()

  return {
    settings,
    connections,
    arrivals,
    running: (machine) => practising.get(machine)?.running() ?? lines.get(machine)?.listener?.running(),
    says(machine) {
      const line = lines.get(machine)
      return { folder: watched.get(machine)?.says ?? null, line: line?.listener?.says() ?? line?.says ?? null }
    },
    look,
    onHeard(listener) {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    practice,
    practise: (wanted) =>
      inTurn(async () => {
        if (closed) return false
        const open = practising.get(wanted.machine) ?? (await listen(wanted.machine, practiceLine, 0))
        practising.set(wanted.machine, open)
        return practice.begin({ ...wanted, port: open.port })
      }),
    async close() {
      closed = true
      clearInterval(timer)
      await practice.close()
      await inTurn(async () => {
        const open = [...practising.values(), ...[...lines.values()].flatMap(({ listener }) => listener ?? [])]
        await Promise.all(open.map((each) => each.close()))
      })
    },
  }
}
