import type { Instant } from '../instant.ts'
import type { Look } from '../look.ts'
import { type LoadKnown, loadTime } from '../sterilising/load-fold.ts'
import { isSubjectOf, type SubjectId } from '../subject.ts'

/** Loads of one machine, and how far the walk has come: every load built on this side of `reached` has been given. */
export interface LoadsPage {
  readonly loads: readonly LoadKnown[]
  readonly reached: Instant
}

/** About three days of a busy steriliser at first: most walks end there. A walk that goes on asks for more at a time. */
const firstPage = 24
const largestPage = 384

/**
 * The loads that ran on a machine, page by page in the order in which they were built. A walk that has seen
 * enough simply stops, so that a long history costs nothing.
 */
export async function* loadsRunOn(
  look: Look,
  machine: SubjectId<'machine'>,
  span: { readonly since?: Instant; readonly until?: Instant; readonly order: 'oldestFirst' | 'newestFirst' },
): AsyncGenerator<LoadsPage> {
  const seen = new Set<string>()
  let { since, until } = span
  let limit = firstPage
  for (;;) {
    const links = await look.links({
      end: 'to',
      subjects: [machine],
      relations: ['ranOn'],
      order: span.order,
      limit,
      ...(since === undefined ? {} : { since }),
      ...(until === undefined ? {} : { until }),
    })
    const last = links.at(-1)
    if (last === undefined) return
    const fresh = links.filter((link) => !seen.has(link.from))
    for (const link of fresh) seen.add(link.from)
    const ids = fresh.map((link) => link.from).filter((id) => isSubjectOf('load', id))
    const known = await look.known(ids)
    const loads = ids.flatMap((id) => known.get(id) ?? []).filter((load) => load.machine === machine)
    yield { loads, reached: last.at }
    if (links.length < limit) return
    // The next page begins at the same moment, since several links may share it; when a page brings nothing new
    // all of it shares that moment, and pages grow without bound until one reaches beyond.
    limit = fresh.length === 0 ? limit * 2 : Math.max(limit, Math.min(limit * 2, largestPage))
    if (span.order === 'oldestFirst') since = last.at
    else until = last.at
  }
}

/** The order of loads on a machine: by the end of the cycle, then by id. */
export function compareLoads(a: LoadKnown, b: LoadKnown): number {
  const atA = loadTime(a) ?? ''
  const atB = loadTime(b) ?? ''
  if (atA !== atB) return atA < atB ? -1 : 1
  if (a.id === b.id) return 0
  return a.id < b.id ? -1 : 1
}
