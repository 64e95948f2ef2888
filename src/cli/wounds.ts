import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { parseSubject, type SubjectId } from '#road/subject.ts'
import { readChart } from '#service/wounds/read-chart.ts'
import { rateText } from './rate-text.ts'
import { chartRows } from './wound-chart-rows.ts'
import { callsDue } from '#service/wounds/calls-due.ts'
import { type RateGroup, rateGroups, ratesBy } from '#service/wounds/rates-by.ts'
import type { DurationCut } from '#road/wounds/surveillance/duration-cut.ts'
import { daysBefore, readLines } from '#service/wounds/read-lines.ts'
import { clustersFrom } from '#service/wounds/clusters.ts'
import { investigation } from './wounds-investigation.ts'
import { suspects } from './wounds-suspects.ts'
import { onUnit, textOf, type UnitCall } from './on-unit.ts'

const usage =
  'wounds calls|lines|rates|suspects|clusters|chart CHART|investigation INVESTIGATION [--by procedure|month|surgeon|theatre|woundClass|riskIndex] [--days N] [--infections all|counted|late|acidFast] [--investigation INVESTIGATION [--as-known closing|now]] [--json]'

/** `wounds …`: who is to be called, the line list, rates with their intervals, suspects, groups in time and place, a chart, an investigation. */
export function runWounds(args: string[], io: CommandIo): Promise<number> {
  return onUnit(
    {
      usage,
      options: { json: 'yes', by: 'text', days: 'text', infections: 'text', investigation: 'text', 'as-known': 'text' },
      mostWords: 2,
      makes: false,
      run: show,
    },
    args,
    io,
  )
}

async function show(call: UnitCall, io: CommandIo): Promise<number> {
  const [word] = call.words
  const days = Number(textOf(call.flags['days']) ?? '365')
  if (!Number.isInteger(days) || days < 1)
    return unusable(io, `--days: wanted a whole number of days, current value is ${String(call.flags['days'])}`)
  const now = clock()
  switch (word) {
    case 'calls':
      return print(call, io, await callsDue(call.reader, now, 7), (row) => [
        row.call.state,
        row.call.dueAt.slice(0, 10),
        `day ${row.call.day}`,
        row.case,
        row.patient,
        row.procedure,
      ])
    case 'lines': {
      const { lines } = await readLines(call.reader, now, daysBefore(now, days))
      return print(call, io, lines, (line) => [
        line.day,
        line.case,
        line.procedure,
        `index ${line.riskIndex.category ?? 'not evaluable'}`,
        `prevention ${line.preventionTold.told} of ${line.preventionTold.asked}`,
        line.followUp.standing,
        line.infection === null
          ? '-'
          : `${line.infection.depth} day ${line.infection.onsetDays}${line.infection.counted ? '' : ' late'}`,
      ])
    }
    case 'rates':
      return rates(call, io, days)
    case 'suspects': {
      const done = await suspects(call, io, days)
      return typeof done === 'number' ? done : await unusable(io, done)
    }
    case 'clusters':
      return clusters(call, io, days)
    case 'chart':
      return chart(call, io)
    case 'investigation': {
      const done = await investigation(call, io)
      return typeof done === 'number' ? done : await unusable(io, done)
    }
    default:
      return unusable(
        io,
        `wounds: wanted calls, lines, rates, suspects, clusters, chart or investigation, current value is ${JSON.stringify(word ?? '')}`,
      )
  }
}

async function rates(call: UnitCall, io: CommandIo, days: number): Promise<number> {
  const by = textOf(call.flags['by']) ?? 'procedure'
  if (!isGroup(by))
    return unusable(io, `--by: wanted one of ${rateGroups.join(', ')}, current value is ${JSON.stringify(by)}`)
  const answer = await ratesBy(call.reader, clock(), by, days)
  if (call.flags['json'] === true) {
    await io.stdout.write(`${JSON.stringify(answer, null, 2)}\n`)
    return exit.ok
  }
  const rows = [{ group: 'all', rate: answer.all }, ...answer.groups]
  for (const { group, rate } of rows) await io.stdout.write(`${[group, ...rateText(rate)].join('\t')}\n`)
  if (by === 'riskIndex') for (const cut of answer.cuts) await io.stdout.write(`${cutText(cut).join('\t')}\n`)
  return exit.ok
}

function cutText({ procedure, minutes, from, operations }: DurationCut): readonly string[] {
  const way = from === 'own' ? `own 75th percentile of ${operations} operations` : `given; ${operations} operations`
  return ['long operation', procedure, `above ${minutes} min`, way]
}

/** The closest groups of infections, and how often chance alone would bring them. */
async function clusters(call: UnitCall, io: CommandIo, days: number): Promise<number> {
  const answer = await clustersFrom(call.reader, call.compute, clock(), days)
  if (call.flags['json'] === true) {
    await io.stdout.write(`${JSON.stringify(answer, null, 2)}\n`)
    return exit.ok
  }
  const rows = [...(answer.inTime === null ? [] : [{ ...answer.inTime, by: 'time', place: null }]), ...answer.inPlace]
  await io.stdout.write(`${answer.infections} infections in ${answer.operations} operations\n`)
  for (const row of rows) {
    const group = `${row.infections} of ${row.operations}`
    await io.stdout.write(`${[row.by, row.place ?? '-', row.from, row.to, group, `by chance ${row.p}`].join('\t')}\n`)
  }
  return exit.ok
}

/** One chart: what it was designed for, where it stands, and the distances between infections. */
async function chart(call: UnitCall, io: CommandIo): Promise<number> {
  const wanted = call.words[1] ?? ''
  const id = parseSubject(wanted.startsWith('chart:') ? wanted : `chart:${wanted}`)
  const answer = id === undefined || !isChart(id) ? undefined : await readChart(call.reader, id, clock())
  if (answer === undefined)
    return unusable(io, `wounds chart: wanted a chart that is known, current value is ${JSON.stringify(wanted)}`)
  if (call.flags['json'] === true) await io.stdout.write(`${JSON.stringify(answer, null, 2)}\n`)
  else for (const row of chartRows(answer)) await io.stdout.write(`${row.join('\t')}\n`)
  return exit.ok
}

async function print<Row>(
  { flags }: UnitCall,
  io: CommandIo,
  rows: readonly Row[],
  cells: (row: Row) => readonly string[],
): Promise<number> {
  for (const row of rows)
    await io.stdout.write(`${flags['json'] === true ? JSON.stringify(row) : cells(row).join('\t')}\n`)
  return exit.ok
}

function isChart(id: SubjectId): id is SubjectId<'chart'> {
  return id.startsWith('chart:')
}

function isGroup(text: string): text is RateGroup {
  return (rateGroups as readonly string[]).includes(text)
}

async function unusable(io: CommandIo, says: string): Promise<number> {
  await io.stderr.write(`${says}\nUsage: nilgrowth ${usage}\n`)
  return exit.unusableInput
}
