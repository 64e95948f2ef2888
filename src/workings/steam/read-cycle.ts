import { plateauSpan, factsOf, type Judged } from './cycle-facts.ts'
import { saturationSeries, temperatureSeries } from './criteria-holding.ts'
import { judgeCycle, verdictOf } from './criteria.ts'
import type { CycleFacts } from './criterion.ts'
import { findingsOfCycle } from './cycle-findings.ts'
import type { SteamCycleSpan } from './cycles.ts'
import { type Doubted, type DoubtedSeries, greatest, greatestSpread, least } from './extremes.ts'
import { channelLethality, type LethalityBase } from './lethality.ts'
import { phasesOf } from './phases.ts'
import { pinsOf } from './pins.ts'
import { airFractionAfter } from './pulses.ts'
import type { SteamCycleReading } from './reading.ts'
import { lengthOf } from './runs.ts'
import { at, figure } from './series.ts'
import type { SteamLog } from './steam-log.ts'
import type { Span } from './hot-regions.ts'

/** Reads and judges one cycle of a log. */
export function readCycle(
  log: SteamLog,
  cycle: SteamCycleSpan,
  judged: Judged,
  base: LethalityBase,
): Omit<SteamCycleReading, 'cycle' | 'cycles'> {
  const { facts, faults } = factsOf(log, cycle, judged)
  const criteria = judgeCycle(facts)
  const { holding, pulses, drying } = facts
  const plateau = plateauSpan(holding)
  const coldest = coldestLethality(facts, base)
  return {
    verdict: verdictOf(criteria),
    holdingSeconds: facts.temperatures.length === 0 ? null : figure(lengthOf(log.seconds, holding.window)),
    equilibrationSeconds: figure(facts.equilibration?.seconds),
    fMinutes: figure(coldest?.minutes),
    ...base,
    fChannel: coldest?.name ?? null,
    plateau:
      plateau === null
        ? null
        : { startSeconds: at(log.seconds, plateau.from), endSeconds: at(log.seconds, plateau.to) },
    ...windowFigures(facts),
    saturationEquation: judged.equation,
    pulses: pulses.map(({ lowKPa, highKPa }) => ({ lowKPa: figure(lowKPa) ?? 0, highKPa: figure(highKPa) ?? 0 })),
    airFraction: airFraction(facts),
    dryingSeconds: figure(drying?.seconds),
    dryingDepthKPa: figure(drying?.depthKPa),
    phases: phasesOf(facts),
    criteria,
    findings: [...log.findings, ...findingsOfCycle(facts, faults)],
    pins: pinsOf(facts, faults, criteria),
  }
}

function windowFigures(
  facts: CycleFacts,
): Pick<SteamCycleReading, 'minC' | 'maxC' | 'saturationMinC' | 'saturationMaxC' | 'maxSpreadK'> {
  const window = facts.holding.window
  const temperatures = temperatureSeries(facts)
  const saturation = saturationSeries(facts)
  const measured = (of: (series: readonly DoubtedSeries[], span: Span) => Doubted, series: readonly DoubtedSeries[]) =>
    window === null || series.length === 0 ? null : figure(of(series, window).logged)
  return {
    minC: measured(least, temperatures),
    maxC: measured(greatest, temperatures),
    saturationMinC: measured(least, saturation),
    saturationMaxC: measured(greatest, saturation),
    // One temperature alone has nothing to differ from.
    maxSpreadK:
      temperatures.length + saturation.length < 2 ? null : measured(greatestSpread, [...temperatures, ...saturation]),
  }
}

/** F of the channel that gets the least; only channels that can be believed, and only a cycle with a hot part. */
function coldestLethality(facts: CycleFacts, base: LethalityBase): { name: string; minutes: number } | null {
  const { log, cycle, temperatures, holding } = facts
  if (cycle.hot === null) return null
  const plateau = plateauSpan(holding)
  const each = temperatures.map(({ channel }) => ({
    name: channel.name,
    minutes: channelLethality(log, channel, cycle, plateau, base),
  }))
  return each.reduce<(typeof each)[number] | null>(
    (least, one) => (least === null || one.minutes < least.minutes ? one : least),
    null,
  )
}

/** The estimate spans many powers of ten, so it keeps four digits instead of thousandths. */
function airFraction({ pulses }: CycleFacts): number | null {
  const fraction = airFractionAfter(pulses)
  return fraction === null || !Number.isFinite(fraction) ? null : Number(fraction.toPrecision(4))
}
