import { type Finding } from '#road/finding.ts'
import type { KeptEntry } from '#road/entry.ts'
import { theRoad } from '#road/the-road.ts'
import { whatIsSaid } from '#journal/said.ts'
import type { Reader } from '#journal/journal.ts'
import type { LiveChange } from '../api-types.ts'

/** How an entry is told to the open screens. */
export async function changeOf(reader: Reader, entry: KeptEntry): Promise<LiveChange> {
  return { seq: entry.seq, kind: entry.kind, subjects: await subjectsOf(reader, entry), alarm: alarmOf(entry) }
}

/** A correction changes what it is about and what the entry before it was about. */
async function subjectsOf(reader: Reader, entry: KeptEntry): Promise<LiveChange['subjects']> {
  const own = whatIsSaid(theRoad, entry)?.subjects ?? []
  const corrected = entry.corrects === undefined ? undefined : await reader.entry(entry.corrects)
  if (corrected === undefined) return own
  return [...new Set([...own, ...(await subjectsOf(reader, corrected))])]
}

/** Growth always alarms; a fact that a rule would have stopped does too, since it was kept all the same. */
export function alarmOf(entry: KeptEntry): string | null {
  const stops = entry.judgement.findings.filter((finding: Finding) => finding.weight === 'stop')
  const said = stops.map((finding) => finding.says).join(' ')
  if (entry.kind === 'biological-read' && entry.body['result'] === 'growth') {
    return ['Growth in a biological indicator: a recall is open.', said].filter((part) => part !== '').join(' ')
  }
  if (stops.length === 0) return null
  // A decision with stops stands only by exception, which its maker has seen; it is no alarm for the others.
  return entry.exception === undefined ? said : null
}
