import type { TypedSent } from '#road/kinds.ts'

/* What the clerk reads off the list of entries first: which of them stand, and what each load came to. */

export type Of<K extends TypedSent['kind']> = Extract<TypedSent, { kind: K }>

/** The entries that stand, by time and then by id. They are given as they came: the last correction stands. */
export function standingEntries(entries: readonly TypedSent[]): TypedSent[] {
  const byId = new Map<string, TypedSent>()
  for (const entry of entries) byId.set(entry.id, entry)
  const chosen = new Map<string, TypedSent>()
  for (const entry of entries) {
    let first: string = entry.id
    for (let here: TypedSent | undefined = entry; here?.corrects !== undefined; here = byId.get(here.corrects)) {
      first = here.corrects
    }
    const rival = chosen.get(first)
    const isFirst = entry.id === first
    if (rival === undefined || !isFirst) chosen.set(first, entry)
  }
  const standing = [...chosen.values()].filter((entry) => entry.kind !== 'entry-withdrawn')
  return standing.sort((a, b) => {
    if (a.happenedAt !== b.happenedAt) return a.happenedAt < b.happenedAt ? -1 : 1
    return a.id < b.id ? -1 : 1
  })
}

export interface ClerkLoad {
  readonly id: string
  readonly built: Of<'load-built'>
  cycle: Of<'cycle-logged'> | undefined
  readonly chemical: Of<'chemical-read'>[]
  readonly biological: Of<'biological-read'>[]
}

export function loadsOf(standing: readonly TypedSent[]): Map<string, ClerkLoad> {
  const loads = new Map<string, ClerkLoad>()
  for (const entry of standing) {
    if (entry.kind !== 'load-built') continue
    loads.set(entry.body.load, { id: entry.body.load, built: entry, cycle: undefined, chemical: [], biological: [] })
  }
  for (const entry of standing) {
    if (entry.kind === 'cycle-logged') {
      const load = loads.get(entry.body.load)
      if (load !== undefined) load.cycle = entry
    }
    if (entry.kind === 'chemical-read') loads.get(entry.body.load)?.chemical.push(entry)
    if (entry.kind === 'biological-read') loads.get(entry.body.load)?.biological.push(entry)
  }
  return loads
}

export const timeOf = (load: ClerkLoad): string => load.cycle?.body.endedAt ?? load.built.happenedAt
export const grew = (load: ClerkLoad): boolean => load.biological.some((read) => read.body.result === 'growth')
/** The histories read indicators after 6 h or after 48 h, which is enough for every method. */
const longest = 48
export const negative = (load: ClerkLoad): boolean =>
  load.biological.length > 0 &&
  !grew(load) &&
  load.biological.some(
    ({ body }) =>
      body.incubatedHours >= (body.makersHours ?? longest) &&
      body.control !== null &&
      body.control.result === 'growth' &&
      body.control.lot === body.lot,
  )
export const spoilt = (load: ClerkLoad): boolean => load.cycle?.body.report.verdict === 'notMet'
export const good = (load: ClerkLoad): boolean => negative(load) && !spoilt(load)
