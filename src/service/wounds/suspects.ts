import type { Instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import { parseSubject, type SubjectId } from '#road/subject.ts'
import { subjectTitle } from '#road/tracing/subject-title.ts'
import type { Touched } from '#road/wounds/investigation/exposures-of-case.ts'
import { recallWay } from '#road/wounds/investigation/recall-way.ts'
import { type CaseLine } from '#road/wounds/surveillance/line.ts'
import type { Ranking } from '../compute/task.ts'
import type { Suspects, SuspectsAsked, SuspectsSpan } from './suspects-answer.ts'
import type { Compute } from '../compute/compute.ts'
import { sampleFindings } from './sample-findings.ts'
import { comparedCase } from './compared-case.ts'
import { type AsKnown, investigationList, type InvestigationReader } from './investigation-list.ts'
import { daysBefore, type LineList, readLines, type WoundReader } from './read-lines.ts'
import { samplesBeside, samplesOf, samplesSince } from './samples-beside.ts'
import { type ExposedLine, readExposures } from './read-exposures.ts'

/** Ranks what cases of the last days were exposed to by how far infection goes with it. */
export async function suspectsFrom(
  reader: WoundReader,
  compute: Compute,
  now: Instant,
  { days, ...asked }: SuspectsAsked & { readonly days: number },
): Promise<Suspects> {
  const since = daysBefore(now, days)
  const list = await readLines(reader, now, since)
  const samples = await samplesSince(reader, since)
  const span = { from: list.dayOf(since), to: list.dayOf(now), of: null, wounds: [] }
  return await rankedSuspects(reader, compute, { list, samples, span, asked })
}

/** The same over the days of an investigation, and for the wounds that it names. Undefined: there is no such one. */
export async function suspectsOfInvestigation(
  reader: InvestigationReader,
  compute: Compute,
  id: SubjectId<'investigation'>,
  { asKnown, ...asked }: SuspectsAsked & { readonly asKnown: AsKnown },
): Promise<Suspects | undefined> {
  const found = await investigationList(reader, id, asKnown)
  if (found === undefined) return undefined
  const { list, wounds, window, closedAt } = found
  const { from, to, why } = window
  const samples = await samplesOf(found)
  const knownAt = asKnown === 'now' ? null : closedAt
  const span = { from, to, of: { investigation: id, why, knownAt }, wounds }
  return await rankedSuspects(found.reader, compute, { list, samples, span, asked })
}

interface Compared {
  readonly list: LineList
  readonly samples: readonly KnownOf<'sample'>[]
  readonly span: SuspectsSpan
  readonly asked: SuspectsAsked
}

async function rankedSuspects(
  reader: WoundReader,
  compute: Compute,
  { list, samples, span, asked }: Compared,
): Promise<Suspects> {
  const lines = list.lines.filter((line) => line.infection === null || chosen(line, asked, span))
  const { lines: exposed, touched } = await readExposures(reader, list, lines)
  const answer = await compute.run({
    kind: 'rankExposures',
    input: {
      cases: exposed.map(comparedCase),
      findings: [...sampleFindings(samples)],
      permutations: asked.permutations,
      seed: 1,
      level: 0.05,
      most: 200,
    },
  })
  if (answer.kind !== 'ranking') throw new Error(`a ranking was asked for, and ${answer.kind} came`)
  return {
    asked,
    span,
    ranking: answer.ranking,
    titles: await titlesOf(reader, answer.ranking),
    recalls: recallsOf(answer.ranking, exposed, touched),
    samples: samplesBeside(samples),
    lines: exposed.map(({ line, exposures }) => ({
      case: line.case,
      day: line.day,
      procedure: line.procedure,
      infected: line.infection !== null,
      onsetDays: line.infection?.onsetDays ?? null,
      organism: line.infection?.organism ?? null,
      riskIndex: line.riskIndex.category,
      met: exposures.map(({ type, id }) => `${type} ${id}`),
    })),
  }
}

/** From each thing that is ranked, by type and id, to what else it touched. */
function recallsOf({ ranked }: Ranking, exposed: readonly ExposedLine[], touched: Touched): Suspects['recalls'] {
  const infected = exposed.filter(({ line }) => line.infection !== null)
  return Object.fromEntries(
    ranked.flatMap(({ type, id }) => (id === null ? [] : [[`${type} ${id}`, recallWay(type, id, infected, touched)]])),
  )
}

function chosen({ infection }: CaseLine, { infections }: SuspectsAsked, { wounds }: SuspectsSpan): boolean {
  if (infection === null) return false
  if (wounds.length > 0 && !wounds.includes(infection.wound)) return false
  switch (infections) {
    case 'all':
      return true
    case 'counted':
      return infection.counted
    case 'late':
      return infection.onsetDays >= 21
    case 'acidFast':
      return infection.acidFast === 'positive' || /mycobact/i.test(infection.organism ?? '')
  }
}

async function titlesOf(reader: WoundReader, { ranked }: Ranking): Promise<Readonly<Record<string, string>>> {
  const ids = [...new Set(ranked.flatMap(({ id }) => (id === null ? [] : (parseSubject(id) ?? []))))]
  const known = await reader.known(ids)
  return Object.fromEntries(ids.map((id) => [id, subjectTitle(id, known.get(id), () => undefined)]))
}
