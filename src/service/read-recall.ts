import { EntryId } from '#road/entry.ts'
import type { Finding } from '#road/finding.ts'
import { unitPolicy } from '#road/gather.ts'
import type { Instant } from '#road/instant.ts'
import type { TypedSent } from '#road/kinds.ts'
import { policyFrom } from '#road/policy.ts'
import type { SubjectId } from '#road/subject.ts'
import { theRoad } from '#road/the-road.ts'
import { recallExtent } from '#road/tracing/recall-extent.ts'
import type { Reader } from '#journal/journal.ts'
import { programItself } from '#journal/program.ts'
import type { RecallAnswer } from './api-types.ts'

/** The extent of a recall as the record stands now, and what still stands against closing it. */
export async function readRecall(
  reader: Reader,
  recall: SubjectId<'recall'>,
  now: Instant,
): Promise<RecallAnswer | undefined> {
  const policy = policyFrom((await reader.known([unitPolicy])).get(unitPolicy))
  const extent = await recallExtent(reader, recall, policy)
  if (extent === undefined) return undefined
  const findings = extent.standing === 'closed' ? [] : await againstClosing(reader, recall, now)
  return { ...extent, findings }
}

/** Asks the rules themselves, with an entry that nobody has made. */
async function againstClosing(reader: Reader, recall: SubjectId<'recall'>, now: Instant): Promise<readonly Finding[]> {
  const closing: TypedSent = {
    id: EntryId.parse('00000000-0000-7000-8000-000000000000'),
    site: reader.site,
    kind: 'recall-closed',
    happenedAt: now,
    by: programItself,
    workstation: 'service',
    body: { recall, cause: 'not stated yet', action: 'not stated yet' },
  }
  return (await theRoad.judge(reader, closing, now)).findings
}
