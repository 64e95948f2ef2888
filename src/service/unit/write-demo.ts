import { setImmediate as nextTurn } from 'node:timers/promises'
import { describeProblem } from '#units/problem.ts'
import type { SentEntry, SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Journal } from '#journal/journal.ts'
import type { Outcome } from '#journal/outcome.ts'
import type { DemoSource } from './demo-source.ts'

export interface DemoProgress {
  readonly done: Promise<'written' | 'stopped'>
  report(): { readonly done: number; readonly total: number }
  /** Ends after the chunk that is being written. */
  stop(): void
}

/** Small enough that a request waits a few tens of milliseconds at most, large enough to share a commit. */
const chunkSize = 100

interface DemoParts {
  readonly journal: Journal
  readonly demo: DemoSource
  readonly site: SiteId
  /** The present of the demonstration. */
  readonly until: Instant
  readonly log: (line: string) => void
}

/** Records the demonstration unit through the same rules as everything else, in the background. */
export function writeDemo(parts: DemoParts): DemoProgress {
  let done = 0
  let stopped = false
  const write = async (): Promise<'written' | 'stopped'> => {
    let chunk: SentEntry[] = []
    const flush = async (): Promise<void> => {
      reportUnusable(await parts.journal.appendMany(chunk), parts.log)
      done += chunk.length
      chunk = []
      await nextTurn()
    }
    for await (const step of parts.demo.steps({ site: parts.site, now: parts.until })) {
      if (stopped) return 'stopped'
      if (step.kind === 'entry') chunk.push(step.entry)
      else {
        await parts.journal.attach(new TextEncoder().encode(step.text), step.mediaType)
        done += 1
      }
      if (chunk.length >= chunkSize) await flush()
    }
    if (chunk.length > 0) await flush()
    return 'written'
  }
  return {
    done: write(),
    report: () => ({ done, total: Math.max(parts.demo.total, done) }),
    stop: () => {
      stopped = true
    },
  }
}

/** A refused decision may be part of the story; an entry that cannot be used is a mistake in it. */
function reportUnusable(outcomes: readonly Outcome[], log: (line: string) => void): void {
  for (const outcome of outcomes) {
    if (outcome.kind === 'unusable') log(`demonstration: ${outcome.problems.map(describeProblem).join('; ')}`)
  }
}
