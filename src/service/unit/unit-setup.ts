import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { SubjectId } from '#road/subject.ts'
import type { Journal, Reader } from '#journal/journal.ts'
import type { ApiProblem, UnitChoice, UnitState } from '../api-types.ts'
import { alreadySetUp, noDemonstration } from '../problems.ts'
import { type DemoProgress, writeDemo } from './write-demo.ts'
import type { DemoSource } from './demo-source.ts'
import type { SetupMarker } from './setup-marker.ts'
import { openEmptyUnit } from './open-empty-unit.ts'

/** Begins the record of a unit, once. */
export interface UnitSetup {
  state(): Promise<UnitState>
  begin(choice: UnitChoice): Promise<UnitState | { readonly problem: ApiProblem }>
  /** Goes on with a demonstration whose writing was cut short. Done when it is known whether there is one. */
  resume(): Promise<void>
  /** Waits for what is being written to come to a safe end. */
  close(): Promise<void>
}

interface SetupParts {
  readonly journal: Journal
  readonly reader: Reader
  readonly site: SiteId
  readonly comparesSites: boolean
  readonly now: () => Instant
  readonly demo: DemoSource | null
  readonly marker: SetupMarker
  readonly log: (line: string) => void
  /** Tells of the manager of a new unit, before anybody else may ask anything of it. */
  readonly opened: (manager: SubjectId<'person'>, passphrase: string | undefined) => Promise<void>
}

export function unitSetup(parts: SetupParts): UnitSetup {
  const { reader, site, comparesSites, log, marker } = parts
  let progress: DemoProgress | null = null
  let running: Promise<void> = Promise.resolve()
  let beginning = false

  const state = async (): Promise<UnitState> => {
    if (progress !== null) return { state: 'settingUp', ...progress.report() }
    const [head, units] = await Promise.all([reader.head(), reader.standing('unit', ['open'])])
    const [unit] = units
    if (head === undefined || unit === undefined) return { state: 'new' }
    return { state: 'open', site, comparesSites, unit, head: { seq: head.seq, hash: head.hash } }
  }

  const writeOn = (demo: DemoSource, until: Instant): void => {
    const begun = writeDemo({ ...parts, demo, until })
    progress = begun
    running = begun.done
      .then((end) => (end === 'written' ? marker.clear() : undefined))
      .catch((error: unknown) => log(`the demonstration unit was not written to its end: ${String(error)}`))
      .finally(() => {
        progress = null
      })
  }

  return {
    state,
    async begin(choice) {
      const before = await state()
      // Two screens may choose at once; the second finds the first one's choice.
      if (before.state !== 'new' || beginning) return { problem: alreadySetUp(describeState(before)) }
      beginning = true
      try {
        if (choice.choice === 'empty') {
          await parts.opened(await openEmptyUnit(parts, choice), choice.passphrase)
        } else {
          if (parts.demo === null) return { problem: noDemonstration() }
          const until = parts.now()
          await marker.write(until)
          writeOn(parts.demo, until)
        }
        return await state()
      } finally {
        beginning = false
      }
    },
    async resume() {
      const until = await marker.read()
      if (until !== null && parts.demo !== null) writeOn(parts.demo, until)
    },
    async close() {
      progress?.stop()
      await running
    },
  }
}

function describeState(state: UnitState): string {
  switch (state.state) {
    case 'new':
      return 'being set up by another screen'
    case 'settingUp':
      return `being set up, ${state.done} of ${state.total}`
    case 'open':
      return `open, ${state.head.seq} entries`
  }
}
