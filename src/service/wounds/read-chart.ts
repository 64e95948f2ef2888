import type { Instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import type { SubjectId } from '#road/subject.ts'
import { type ChartPath, chartPath } from '#road/wounds/surveillance/chart-path.ts'
import { type FittedRisk, fitRisk } from '#road/wounds/surveillance/fit-risk.ts'
import { type GapCharts, gapsOf } from '#road/wounds/surveillance/gaps.ts'
import { type Rate, rateOf } from '#road/wounds/surveillance/rates.ts'
import { readLines, type WoundReader } from './read-lines.ts'

export interface ChartAnswer {
  readonly chart: KnownOf<'chart'>
  /** Null while the chart is not set up. */
  readonly path: ChartPath | null
  readonly gaps: GapCharts | null
  readonly rate: Rate
  /** The model that the unit's record gives today; it is used only when somebody keeps it. */
  readonly fitted: FittedRisk | null
}

/** One chart with the path that the record gives it. */
export async function readChart(
  reader: WoundReader,
  chart: SubjectId<'chart'>,
  now: Instant,
): Promise<ChartAnswer | undefined> {
  const known = (await reader.known([chart])).get(chart)
  if (known === undefined) return undefined
  const { lines } = await readLines(reader, now)
  const { set } = known
  const counted = lines.filter(
    (line) =>
      set === null || set.procedures.length === 0 || (line.category !== null && set.procedures.includes(line.category)),
  )
  return {
    chart: known,
    path: chartPath(known, lines),
    gaps: set === null ? null : gapsOf(counted, set.usualRate),
    rate: rateOf(counted),
    fitted: fitRisk(counted),
  }
}
