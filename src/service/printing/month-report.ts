import type { RecordContext } from '../context.ts'
import { type MonthRead, readMonths } from '../read-month.ts'
import type { Content } from './content.ts'
import { type MonthShare, monthsPicture } from './months-picture.ts'
import { heading, pageOf, type PrintAsked, rows } from './print-parts.ts'
import type { PrintedPage } from './printed-page.ts'

const monthsShown = 6

/** The quality report of a month: what was sterilised and what failed, indicators, infections, and how much is not known. */
export async function monthReport(
  { reader }: Pick<RecordContext, 'reader'>,
  month: string,
  asked: PrintAsked,
): Promise<PrintedPage> {
  const { frame } = await pageOf(reader, asked)
  const months = await readMonths(reader, { month, months: monthsShown, now: asked.now })
  const here = months.at(-1)
  return {
    title: `Quality report, ${month}`,
    about: `Quality report ${month}`,
    ...frame,
    content:
      here === undefined
        ? []
        : [...sterilising(here, months), ...indicators(here), ...infections(here, months), ...gaps(here)],
  }
}

const figures = (said: readonly (readonly [string, number | string, string])[]): Content =>
  rows(
    ['What', 'Number', 'What it counts'],
    said.map(([what, number, says]) => [what, { text: String(number), bold: true }, says]),
    [186, 44, '*'],
  )

function sterilising(
  { sterilising: { loads, cycle, failed, packs } }: MonthRead,
  months: readonly MonthRead[],
): readonly Content[] {
  return [
    heading('Sterilisation'),
    figures([
      ['Loads with goods', loads, 'built in the month'],
      ['Cycle met its limits', cycle.met, 'by the log, at the limits in force when it ran'],
      [
        'Cycle did not meet them',
        cycle.notMet,
        failed.interval === null
          ? 'no cycle can be judged'
          : `of ${failed.of} judged: ${share(cycle.notMet / failed.of)} (${range(failed.interval)})`,
      ],
      ['Not evaluable', cycle.notEvaluable, 'a log is there and does not tell: no pass'],
      ['No log', cycle.notLogged, 'nobody read one in: no pass'],
      ['Cancelled', cycle.cancelled, 'before or while it ran'],
      ['Packs released', packs.released, ''],
      ['Packs in quarantine', packs.quarantined, ''],
      ['Packs rejected', packs.rejected, ''],
    ]),
    ...picture(
      'Cycles that did not meet their limits, of those that can be judged',
      months.map(({ month, sterilising: { cycle, failed } }) => ({
        month,
        count: cycle.notMet,
        of: failed.of,
        interval: failed.interval,
      })),
    ),
  ]
}

function indicators({ sterilising: { chemical, biological, airRemoval } }: MonthRead): readonly Content[] {
  return [
    heading('Indicators and tests'),
    figures([
      ['Chemical, changed as they should', chemical.passed, 'readings'],
      ['Chemical, not changed', chemical.failed, 'readings'],
      ['Chemical, missing', chemical.missing, 'readings that found none: no pass'],
      ['Biological, no growth', biological.noGrowth, 'loads; whether each was valid stands with the load'],
      ['Biological, growth', biological.growth, 'loads, each a recall'],
      ['Air-removal tests passed', airRemoval.passed, ''],
      ['Air-removal tests failed', airRemoval.failed, ''],
    ]),
  ]
}

function infections({ infections: rate }: MonthRead, months: readonly MonthRead[]): readonly Content[] {
  const { operations, interval, bounds } = rate
  return [
    heading('Infections of the operations of the month'),
    figures([
      ['Operations', operations, 'begun in the month'],
      [
        'Infections',
        rate.infections,
        rate.rate === null || interval === null ? 'no operation, no rate' : `${share(rate.rate)} (${range(interval)})`,
      ],
      ['Late infections', rate.late, 'outside the window, not in the rate'],
      ['Wounds not judged yet', rate.unjudged, 'each may be one more'],
      [
        'Lost to follow-up',
        rate.followUp.lost,
        bounds === null
          ? ''
          : `the rate is from ${share(bounds.best)} to ${share(bounds.worst)}, as none or all of them were infected`,
      ],
    ]),
    ...picture(
      'Infections, of all operations of the month',
      months.map(({ month, infections: each }) => ({
        month,
        count: each.infections,
        of: each.operations,
        interval: each.interval,
      })),
    ),
  ]
}

/** What the figures above cannot tell. */
function gaps({
  sterilising: { loads, cycle, chemical, biological, packs },
  infections: { followUp, operations },
}: MonthRead): readonly Content[] {
  return [
    heading('How complete it is'),
    figures([
      ['Loads without a log', cycle.notLogged, `of ${loads}`],
      ['Loads without a chemical indicator read', chemical.loadsWithout, `of ${loads}`],
      ['Biological results awaited', biological.awaited, 'loads that carried one'],
      ['Packs not decided', packs.undecided, 'in loads of the month'],
      ['Follow-up known', followUp.known, `of ${operations} operations`],
      ['Follow-up still running', followUp.running, 'the rate of the month is not final while there are any'],
    ]),
  ]
}

function picture(title: string, months: readonly MonthShare[]): readonly Content[] {
  return [
    { text: title, bold: true, margin: [0, 6, 0, 2] },
    { svg: monthsPicture(months) },
    { text: 'Point: share. Line: its exact 95 % interval (Clopper and Pearson 1934).', style: 'soft' },
  ]
}

function share(value: number): string {
  return `${(value * 100).toFixed(1)} %`
}

function range([low, high]: readonly [number, number]): string {
  return `95 % interval ${(low * 100).toFixed(1)} to ${share(high)}`
}
