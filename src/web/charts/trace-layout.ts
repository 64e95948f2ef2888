import { type SubjectId, subjectKind, type SubjectKind } from '#road/subject.ts'
import type { TraceAnswer } from '#service/api-types.ts'

/** Rows from what was suffered to what may have caused it. */
const order: readonly SubjectKind[] = [
  'wound', 'case', 'recall', 'round', 'set', 'item', 'device', 'load', 'log', 'immersion', 'wash', 'bath', 'lot', 'machine', 'person', 'unit', 'policy',
] // prettier-ignore

export interface TraceRow {
  readonly subject: SubjectId
  readonly title: string
  readonly links: number
  readonly from: number
  readonly to: number
}

export interface TraceLine {
  readonly key: string
  readonly a: number
  readonly b: number
  readonly at: number
  readonly ends: readonly [SubjectId, SubjectId]
}

export interface TraceLayout {
  readonly rows: readonly TraceRow[]
  readonly lines: readonly TraceLine[]
  /** Where a moment stands between the first (0) and the last (1): long pauses are shortened, the order is kept. */
  readonly place: ReadonlyMap<number, number>
}

/** Lays out the most linked subjects, the start always among them: one row each, a line for every link between two rows. */
export function layTrace(trace: TraceAnswer, mostRows: number): TraceLayout {
  const times = new Map<SubjectId, number[]>()
  for (const link of trace.links) {
    for (const end of [link.from, link.to]) times.set(end, [...(times.get(end) ?? []), Date.parse(link.at)])
  }
  const degree = (subject: SubjectId) => times.get(subject)?.length ?? 0
  const kept = trace.nodes
    .toSorted((a, b) => Number(b.distance === 0) - Number(a.distance === 0) || degree(b.subject) - degree(a.subject))
    .slice(0, mostRows)
  const first = (subject: SubjectId) => Math.min(...(times.get(subject) ?? [Infinity]))
  const rank = (subject: SubjectId) => order.indexOf(subjectKind(subject))
  const sorted = kept.toSorted((a, b) => rank(a.subject) - rank(b.subject) || first(a.subject) - first(b.subject))
  const place = new Map(sorted.map((node, index) => [node.subject, index]))
  const lines = trace.links.flatMap((link): TraceLine[] => {
    const a = place.get(link.from)
    const b = place.get(link.to)
    if (a === undefined || b === undefined) return []
    const key = `${link.from} ${link.relation} ${link.to} ${link.entry}`
    return [{ key, a, b, at: Date.parse(link.at), ends: [link.from, link.to] }]
  })
  const all = trace.links.map((link) => Date.parse(link.at))
  return {
    rows: sorted.map((node) => {
      const own = times.get(node.subject) ?? []
      return {
        subject: node.subject,
        title: node.title,
        links: own.length,
        from: Math.min(...own),
        to: Math.max(...own),
      }
    }),
    lines,
    place: placesOf(all),
  }
}

const minute = 60_000

/** Each moment a step after the one before; a step grows with the logarithm of the pause. */
function placesOf(times: readonly number[]): ReadonlyMap<number, number> {
  const sorted = [...new Set(times)].toSorted((a, b) => a - b)
  let sum = 0
  const sums = sorted.map((time, index) => {
    sum += Math.log1p((time - (sorted[index - 1] ?? time)) / minute)
    return sum
  })
  return new Map(sorted.map((time, index) => [time, (sums[index] ?? 0) / Math.max(sum, 1e-9)]))
}
