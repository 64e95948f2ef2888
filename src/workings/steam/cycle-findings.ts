import { saturationPressureKPa } from '../physics/saturation-pressure.ts'
import type { CycleFacts } from './criterion.ts'
import { type SteamFinding, finding } from './finding.ts'
import { plateauSpan } from './cycle-facts.ts'
import { lengthOf } from './runs.ts'
import type { SensorFault } from './sensor-faults.ts'
import { at, medianOf } from './series.ts'
import { longestGapSeconds } from './trouble.ts'

/** What is to be said of one cycle beside its criteria. */
export function findingsOfCycle(facts: CycleFacts, faults: readonly SensorFault[]): SteamFinding[] {
  return [
    ...faults.map((fault) => faultFinding(facts, fault)),
    ...incomplete(facts),
    ...dips(facts),
    ...lag(facts),
    ...gaugeSuspicion(facts),
    ...airCaveat(facts),
  ]
}

function faultFinding({ log, holding }: CycleFacts, { channel, kind, from, to }: SensorFault): SteamFinding {
  const plateau = plateauSpan(holding)
  const inside = plateau === null || (from < plateau.to && to > plateau.from)
  const says = {
    stuck: 'does not change while the others move',
    dead: 'gives nothing that a hot chamber could give',
    missing: `gives no reading for more than ${longestGapSeconds} s`,
  }[kind]
  const where = `${Math.round(at(log.seconds, from))} to ${Math.round(at(log.seconds, to))} s`
  const effect = inside ? 'it is not used in judging the plateau' : 'this does not touch the plateau'
  return finding(
    `${kind}-sensor`,
    inside ? 'notEvaluable' : 'caution',
    `"${channel.name}" ${says} (${where}); ${effect}.`,
  )
}

function incomplete({ log, cycle, holding, endsInside }: CycleFacts): SteamFinding[] {
  if (cycle.hot === null)
    return [finding('no-plateau', 'notEvaluable', 'The log shows no sterilising plateau, not even an attempt at one.')]
  const found: SteamFinding[] = []
  if (endsInside) found.push(finding('truncated', 'notEvaluable', 'The log ends inside the holding time or before it.'))
  else if (cycle.to === log.seconds.length - 1 && at(cycle.chamber, cycle.to) > 105)
    found.push(finding('truncated', 'caution', 'The log ends while the chamber is still hot.'))
  if (holding.window?.from === 0)
    found.push(finding('headless', 'notEvaluable', 'The log begins inside the holding time.'))
  return found
}

/** Readings below the temperature before the last run ends the count and starts it again. */
function dips({ log, holding, temperatures, program }: CycleFacts): SteamFinding[] {
  const { window, otherRuns } = holding
  if (window === null || otherRuns.length === 0) return []
  const longest = Math.round(lengthOf(log.seconds, otherRuns[0] ?? null))
  const first = Math.min(window.from, ...otherRuns.map(({ from }) => from))
  const last = Math.max(window.to, ...otherRuns.map(({ to }) => to))
  let deepest = 0
  for (const { channel } of temperatures)
    for (let index = first; index <= last; index += 1)
      deepest = Math.max(deepest, program.sterilisationC - at(channel.values, index) || 0)
  const noise = Math.max(0, ...temperatures.map(({ doubt }) => doubt.wide))
  const times = otherRuns.length === 1 ? 'once' : `${otherRuns.length} times`
  const says =
    `The temperatures drop below ${program.sterilisationC} °C ${times} between runs at temperature (by up to ${deepest.toFixed(2)} K); ` +
    `only the longest run counts, the next is ${longest} s.`
  return [finding('dip', deepest > noise ? 'caution' : 'note', says)]
}

function lag({ holding }: CycleFacts): SteamFinding[] {
  const { start, end } = holding.trimmed
  if (start + end === 0) return []
  const says = `Saturation is not yet or no longer in the band for ${start} s at the start and ${end} s at the end; they are not counted as holding time.`
  return [finding('pressure-lag', 'note', says)]
}

/** A pressure that would fit if it were a gauge reading; the log is still judged as it is mapped. */
function gaugeSuspicion({ log, holding, program }: CycleFacts): SteamFinding[] {
  const span = plateauSpan(holding)
  if (span === null || log.pressure === null) return []
  const middle = medianOf([...log.pressure.values.subarray(span.from, span.to + 1)])
  const reference = medianOf([...log.reference.values.subarray(span.from, span.to + 1)])
  const short = saturationPressureKPa(Math.min(Math.max(reference || program.sterilisationC, 100), 200)) - middle
  if (!(short > 75 && short < 110)) return []
  const says = `The pressure is ${Math.round(short)} kPa below saturation all along, about one atmosphere: check whether "${log.pressure.name}" is a gauge reading.`
  return [finding('looks-like-gauge', 'caution', says)]
}

function airCaveat({ pulses, log }: CycleFacts): SteamFinding[] {
  const found: SteamFinding[] = []
  if (pulses.length > 0)
    found.push(
      finding(
        'air-estimate',
        'note',
        'The air fraction assumes well-mixed gas and ignores air held in lumens and packs: it compares cycles and does not prove air removal.',
      ),
    )
  if (log.loads.length === 0)
    found.push(finding('no-load-sensors', 'note', 'Without load sensors the log shows the chamber, not the load.'))
  return found
}
