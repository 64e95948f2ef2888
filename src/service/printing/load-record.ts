import { citeSource } from '#units/source.ts'
import { loadStandingWords } from '#road/standing-words.ts'
import type { KeptEntry } from '#road/entry.ts'
import { criterionTitles, verdictWords } from '#road/sterilising/cycle-words.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { loadStanding } from '#road/sterilising/load-fold.ts'
import { invalidReading } from '#road/sterilising/invalid-reading.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import type { CycleChart } from '../api-types.ts'
import type { RecordContext } from '../context.ts'
import { readLoadChart } from '../cycles/read-load-chart.ts'
import { incubationOfLoads } from '../incubation-of-loads.ts'
import type { Content } from './content.ts'
import { cyclePicture } from './cycle-picture.ts'
import { facts, heading, namesOf, pageOf, type PrintAsked, rows, weightWord } from './print-parts.ts'
import type { PrintedPage } from './printed-page.ts'

/** The record of a load for paper: its cycle with the verdict and why, the curves, the indicators, and what was decided by whom. */
export async function loadRecord(
  context: RecordContext,
  id: SubjectId<'load'>,
  asked: PrintAsked,
): Promise<PrintedPage | undefined> {
  const { reader } = context
  const load = (await reader.known([id])).get(id)
  if (load === undefined) return undefined
  const { times, frame } = await pageOf(reader, asked)
  const chart = load.cycle === null ? undefined : await readLoadChart(context, id)
  const decided = load.decision === null ? undefined : await reader.entry(load.decision.entry)
  const wanted = (await incubationOfLoads(reader, [load]))(load)
  const people = [
    load.cycle?.by,
    load.decision?.by,
    ...load.chemical.map((read) => read.by),
    ...load.biological.map((read) => read.by),
  ]
  const names = await namesOf(reader, [load.machine, ...people, ...load.rounds])
  const parts: Parts = {
    load,
    invalid: (read) => invalidReading(read, wanted),
    times,
    name: (subject) =>
      subject === null || subject === undefined ? 'not named' : (names.get(subject) ?? subjectKey(subject)),
  }
  return {
    title: `Load ${subjectKey(id)}`,
    about: `Load ${subjectKey(id)}`,
    ...frame,
    content: [
      aboutLoad(parts),
      ...cycleOf(parts, chart?.kind === 'chart' ? chart.chart : undefined),
      ...indicators(parts),
      ...decisionOf(parts, decided),
    ],
  }
}

interface Parts {
  readonly load: LoadKnown
  /** Why a reading proves nothing; undefined when it counts. */
  readonly invalid: (read: LoadKnown['biological'][number]) => string | undefined
  readonly times: (at: string) => string
  readonly name: (subject: SubjectId | null | undefined) => string
}

function aboutLoad({ load, times, name }: Parts): Content {
  return facts([
    ['Machine', name(load.machine)],
    ['Programme', load.program],
    ['Built', load.builtAt === null ? 'not told' : times(load.builtAt)],
    ['Stands', loadStandingWords[loadStanding(load)]],
    ['Packs', load.rounds.length === 0 ? 'none' : load.rounds.map((round) => name(round)).join(', ')],
  ])
}

function cycleOf({ load, times, name }: Parts, chart: CycleChart | undefined): readonly Content[] {
  const { cycle } = load
  if (cycle === null) return [heading('Cycle'), { text: 'No cycle is logged: nothing of it is evaluable.' }]
  const { report } = cycle
  const number = cycle.cycleNumber === undefined ? '' : `, number ${cycle.cycleNumber} on the machine`
  return [
    heading('Cycle'),
    `${times(cycle.startedAt)} to ${times(cycle.endedAt)}${number}. Recorded by ${name(cycle.by)} at ${times(cycle.at)}.`,
    { text: `Verdict of the log: ${verdictWords[report.verdict]}`, style: 'verdict', margin: [0, 6, 0, 4] },
    rows(
      ['Criterion', 'Result', 'Measured', 'Limit', 'Source'],
      report.criteria.map(({ id, result, measured, limit, source }) => [
        criterionTitles[id] ?? id,
        { text: verdictWords[result], bold: true },
        measured ?? 'nothing',
        limit ?? 'none',
        { text: source, fontSize: 8 },
      ]),
      [128, 66, 76, 56, '*'],
    ),
    ...(report.findings.length === 0
      ? []
      : [{ ul: report.findings.map(({ weight, says }) => `${weightWord(weight)}: ${says}`) }]),
    ...(chart === undefined ? [{ text: 'The curves cannot be drawn from the kept log.' }] : pictureOf(chart)),
    { text: `Kept log, SHA-256: ${cycle.log}`, style: 'soft' },
  ]
}

function pictureOf(chart: CycleChart): readonly Content[] {
  if (chart.gas !== undefined) return [{ text: 'The curves of a gas cycle are on the screen only.' }]
  const sensors = chart.channels.map(({ name }) => name).join(', ')
  return [
    { svg: cyclePicture(chart), margin: [0, 8, 0, 2] },
    {
      text: `Whole line: temperature (${sensors}). Dots: temperature of saturated steam at the pressure measured. Dashes: pressure. Shaded: plateau.`,
      style: 'soft',
    },
    ...(chart.pins.length === 0 ? [] : [{ ol: chart.pins.map(({ says }) => says), fontSize: 8.5 }]),
  ]
}

const places = {
  outsidePack: 'outside the packs',
  insidePack: 'inside a pack',
  challengeDevice: 'in the challenge device',
} as const
const chemical = { passed: 'Changed as it should', failed: 'NOT CHANGED', missing: 'MISSING' } as const

function indicators({ load, invalid, times, name }: Parts): readonly Content[] {
  const read = [
    ...load.chemical.map((each) => [
      `Chemical, type ${each.type}, ${places[each.where]}`,
      chemical[each.result],
      times(each.at),
      name(each.by),
    ]),
    ...load.biological.map((each) => [
      `Biological, lot ${each.lot}, ${each.incubatedHours} h${each.control === null ? ', no control' : ''}`,
      biologicalWords(each.result, invalid(each)),
      times(each.at),
      name(each.by),
    ]),
  ]
  const body =
    read.length === 0
      ? [{ text: 'No indicator is read.' }]
      : [rows(['Indicator', 'Result', 'Read', 'By'], read, ['*', 110, 100, 90])]
  return [heading('Indicators'), ...body]
}

/** No growth that proves nothing must not read as a pass. */
function biologicalWords(result: 'growth' | 'noGrowth', invalid: string | undefined): string {
  if (result === 'growth') return 'GROWTH'
  return invalid === undefined ? 'No growth' : `No growth, INVALID: ${invalid}`
}

const outcomes = { released: 'Released', quarantined: 'Quarantined', rejected: 'Rejected' } as const

function decisionOf({ load, times, name }: Parts, decided: KeptEntry | undefined): readonly Content[] {
  const { decision } = load
  if (decision === null)
    return [heading('Decision'), { text: 'Nothing is decided: no pack of it is released.', bold: true }]
  const findings = decided?.judgement.findings ?? []
  return [
    heading('Decision'),
    `By ${name(decision.by)} at ${times(decision.at)}.`,
    rows(
      ['Pack', 'Outcome', 'Why'],
      decision.packs.map(({ round, outcome, why }) => [
        name(round),
        { text: outcomes[outcome], bold: true },
        why ?? '',
      ]),
      [160, 90, '*'],
    ),
    ...(decided?.exception === undefined ? [] : [{ text: `By exception: ${decided.exception.why}`, bold: true }]),
    ...(findings.length === 0
      ? [{ text: 'The rules found nothing against it.' }]
      : [{ ul: findings.map(({ weight, says, source }) => `${weightWord(weight)}: ${says} (${citeSource(source)})`) }]),
  ]
}
