import type { Problem } from '#units/problem.ts'
import type { KeptEntry } from '#road/entry.ts'
import type { Finding } from '#road/finding.ts'
import { type Instant, instant, millis } from '#road/instant.ts'
import { type SubjectId, isSubjectOf } from '#road/subject.ts'
import { sayTheSame } from './chain.ts'
import { type NotKept, unusable } from './outcome.ts'
import { type Prepared, problem } from './prepare.ts'
import { programItself } from './program.ts'
import type { WorkingSet } from './working-set.ts'

/** What the record says of an entry: keep it, with these findings, or why not. */
export type Verdict =
  | { readonly kind: 'keep'; readonly policy: string; readonly findings: readonly Finding[] }
  | NotKept

const earliest = '2000-01-01T00:00:00.000Z'
/** How far the clock of a tablet may run ahead of the journal's. */
const minutesAhead = 5

/** Holds an entry against the record. Reads only. */
export async function consider(set: WorkingSet, prepared: Prepared, now: Instant): Promise<Verdict> {
  const { sent, typed } = prepared
  const before = await set.holder(sent.id)
  if (before !== undefined) return { kind: sayTheSame(before, sent) ? 'alreadyKept' : 'idTaken', entry: before }

  const corrected = sent.corrects === undefined ? undefined : await set.entry(sent.corrects)
  const problems = [
    ...problemsOfTime(sent.happenedAt, now),
    ...(sent.corrects === undefined ? [] : problemsOfCorrection(prepared, corrected)),
    ...(await problemsOfSubjects(set, prepared, corrected)),
  ]
  if (problems.length > 0) return unusable(...problems)

  const judged = await set.road.judge(set.look, typed, now, corrected)
  const { policy } = judged
  const rival = corrected === undefined ? [] : await findRival(set, corrected)
  const findings = [...judged.findings, ...rival]
  // Facts are always kept, even bad ones: what happened is not undone by a refusal to write it down.
  if (judged.refused && set.road.nature(typed) === 'decision') {
    return { kind: 'refused', policy, findings }
  }
  return { kind: 'keep', policy, findings }
}

/**
 * Of several corrections of one entry the one kept last stands. Whoever sends one that names an entry which another
 * has corrected already has not seen that one: both have to hear that it is set aside.
 */
async function findRival(set: WorkingSet, corrected: KeptEntry): Promise<Finding[]> {
  const { members } = await set.family(corrected)
  const rival = members.findLast((member) => member.corrects === corrected.id)
  if (rival === undefined) return []
  return [
    {
      rule: 'correction-of-corrected',
      weight: 'caution',
      says: 'This entry had been corrected before. The correction kept last stands, which is this one: look at both, and correct this one if the other was right.',
      measured: `corrected by ${rival.by} at ${rival.recordedAt}`,
      source: { title: 'How the journal records time', status: 'proposal' },
    },
  ]
}

function problemsOfTime(happenedAt: Instant, now: Instant): Problem[] {
  const latest = instant(millis(now) + minutesAhead * 60_000)
  if (happenedAt > latest) {
    const current = `"${happenedAt}", ${spanBetween(now, happenedAt)} later`
    return [problem('happenedAt', `at most ${minutesAhead} minutes after now, ${now}`, current)]
  }
  return happenedAt < earliest ? [problem('happenedAt', 'a time after the year 1999', `"${happenedAt}"`)] : []
}

/** In whole minutes, or in days where minutes say nothing any more: the clock may show another year. */
function spanBetween(from: Instant, to: Instant): string {
  const minutes = Math.round((millis(to) - millis(from)) / 60_000)
  return minutes < 2880 ? `${minutes} minutes` : `${Math.round(minutes / 1440)} days`
}

function problemsOfCorrection({ sent }: Prepared, corrected: KeptEntry | undefined): Problem[] {
  if (corrected === undefined) {
    return [problem('corrects', 'an entry kept at this site', `"${sent.corrects}", which is not`)]
  }
  if (sent.kind === 'entry-withdrawn' || sent.kind === corrected.kind) return []
  const wanted = `"${corrected.kind}", as the entry that it corrects, or "entry-withdrawn"`
  return [problem('kind', wanted, `"${sent.kind}"`)]
}

/** Everybody and everything that an entry names is known, or made by it; and what it makes is new. */
async function problemsOfSubjects(
  set: WorkingSet,
  { sent, about }: Prepared,
  corrected: KeptEntry | undefined,
): Promise<Problem[]> {
  const created = new Set(about.creates)
  const ends = about.links.flatMap((link) => [link.from, link.to])
  const named = new Set([...about.subjects, ...about.mentions, ...ends])
  const people = sent.exception === undefined ? [sent.by] : [sent.by, sent.exception.allowedBy]
  const known = await set.known.which([...named, ...created, ...people])
  const exists = (id: SubjectId) => known.has(id) || created.has(id) || id === programItself

  const problems = [...named]
    .filter((id) => !exists(id))
    .map((id) => problem('body', 'subjects that are known', `"${id}", which is not known here`))
  if (!exists(sent.by)) problems.unshift(problem('by', 'a person who is known', `"${sent.by}", who is not known here`))
  if (sent.exception !== undefined && !exists(sent.exception.allowedBy)) {
    const current = `"${sent.exception.allowedBy}", who is not known here`
    problems.unshift(problem('exception.allowedBy', 'a person who is known', current))
  }

  const [main] = about.subjects
  if (main !== undefined && created.has(main) && known.has(main) && comesIntoBeingOnce(main)) {
    const own = corrected === undefined ? [] : (await set.family(corrected)).subjects
    if (!own.includes(main)) problems.push(problem('body', 'a new subject', `"${main}", which another entry made`))
  }
  return problems
}

/**
 * Two sets or two rounds under one id would be mixed up for good. A policy, though, comes into being with its first
 * change and every later change names it again; a recall that an indicator opened may be joined by a person who has found
 * the defect; and what an entry makes besides its main subject may be there.
 */
function comesIntoBeingOnce(id: SubjectId): boolean {
  return !isSubjectOf('policy', id) && !isSubjectOf('recall', id)
}
