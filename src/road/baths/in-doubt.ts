import type { Instant } from '../instant.ts'

/** What happened to a bath, as far as it says how strong the bath was. */
export type BathEvent<Use> =
  | { readonly kind: 'strip'; readonly at: Instant; readonly passed: boolean | null }
  | { readonly kind: 'toppedUp'; readonly at: Instant }
  | { readonly kind: 'use'; readonly at: Instant; readonly use: Use; readonly ownStripPassed: boolean }

/**
 * The uses that no passed strip speaks for: those since the last pass, but not the one that this pass was read for.
 * A pass also speaks for what went before it, since a bath only weakens, until somebody topped it up. Once a strip has
 * failed nothing speaks for the bath any more: neither for what was open then nor for what went into it afterwards.
 */
export function usesInDoubt<Use>(events: readonly BathEvent<Use>[]): readonly Use[] {
  const inOrder = events.toSorted((a, b) => (a.at === b.at ? 0 : a.at < b.at ? -1 : 1))
  const found: Use[] = []
  let open: Use[] = []
  let failed = false
  for (const event of inOrder) {
    switch (event.kind) {
      case 'strip':
        if (event.passed === false) failed = true
        if (event.passed === true && !failed) open = []
        break
      case 'toppedUp':
        found.push(...open)
        open = []
        break
      case 'use':
        if (failed || !event.ownStripPassed) open.push(event.use)
        break
    }
  }
  return [...found, ...open]
}
