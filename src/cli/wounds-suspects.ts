import { isSubjectOf, parseSubject, type SubjectId } from '#road/subject.ts'
import { type InfectionChoice, infectionChoices, type Suspects } from '#service/wounds/suspects-answer.ts'
import { type AsKnown, asKnownChoices } from '#service/wounds/investigation-list.ts'
import { suspectsFrom, suspectsOfInvestigation } from '#service/wounds/suspects.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { textOf, type UnitCall } from './on-unit.ts'
import { oddsText, sampleText, spanText, wayText } from './suspect-text.ts'

const shown = 20

/**
 * `wounds suspects`: the best ranked, and in words what may be said of them; of the last days, or of an investigation.
 * A text is what was wanted and came.
 */
export async function suspects(call: UnitCall, io: CommandIo, days: number): Promise<number | string> {
  const infections = textOf(call.flags['infections']) ?? 'all'
  if (!isChoice(infections))
    return `--infections: wanted one of ${infectionChoices.join(', ')}, current value is ${JSON.stringify(infections)}`
  const answer = await answerOf(call, infections, days)
  if (typeof answer === 'string') return answer
  if (call.flags['json'] === true) await io.stdout.write(`${JSON.stringify(answer, null, 2)}\n`)
  else for (const row of rowsOf(answer)) await io.stdout.write(`${row.join('\t')}\n`)
  return exit.ok
}

async function answerOf(call: UnitCall, infections: InfectionChoice, days: number): Promise<Suspects | string> {
  const { reader, compute, flags } = call
  const asked = { infections, permutations: 9999 }
  const named = textOf(flags['investigation'])
  const asKnown = textOf(flags['as-known']) ?? 'closing'
  if (!isAsKnown(asKnown))
    return `--as-known: wanted ${asKnownChoices.join(' or ')}, current value is ${JSON.stringify(asKnown)}`
  if (named === undefined) return await suspectsFrom(reader, compute, clock(), { ...asked, days })
  if (flags['days'] !== undefined)
    return `--days: wanted none beside --investigation, which has days of its own, current value is ${String(flags['days'])}`
  const id = investigationNamed(named)
  const answer =
    id === undefined ? undefined : await suspectsOfInvestigation(reader, compute, id, { ...asked, asKnown })
  return answer ?? `--investigation: wanted an investigation that is known, current value is ${JSON.stringify(named)}`
}

function rowsOf({ span, ranking, recalls, samples }: Suspects): readonly (readonly (string | number)[])[] {
  const ranked = ranking.ranked.slice(0, shown).map((row) => {
    const infected = `${row.casesExposed} of ${row.casesExposed + row.nonCasesExposed} exposed infected`
    const others = `${row.casesUnexposed} of ${row.casesUnexposed + row.nonCasesUnexposed} others`
    const way = row.id === null ? undefined : recalls[`${row.type} ${row.id}`]
    return [row.rank, row.name, infected, others, oddsText(row), `family-wise p ${row.familyWiseP}`, wayText(way)]
  })
  return [
    spanText(span, ranking),
    [`${ranking.conclusion}: ${ranking.reason}`],
    ...ranked,
    ...(ranking.organism.kind === 'none' ? [] : [['organism', ranking.organism.says]]),
    ...samples.map(sampleText),
  ]
}

/** An investigation as it is named on the command line, with or without its kind. */
export function investigationNamed(named: string): SubjectId<'investigation'> | undefined {
  const id = parseSubject(named.startsWith('investigation:') ? named : `investigation:${named}`)
  return id !== undefined && isSubjectOf('investigation', id) ? id : undefined
}

function isAsKnown(text: string): text is AsKnown {
  return (asKnownChoices as readonly string[]).includes(text)
}

function isChoice(text: string): text is InfectionChoice {
  return (infectionChoices as readonly string[]).includes(text)
}
