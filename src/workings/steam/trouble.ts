import { type SteamFinding, finding } from './finding.ts'
import { at, medianOf } from './series.ts'
import { type Channel, channelsOf, type SteamLog } from './steam-log.ts'

/** A gap longer than this makes what lies around it unknown (4.4, trap 2 of the reference). */
export const longestGapSeconds = 30

/** Steps finer than this do not matter beside the accuracy of any sensor; the readings are taken as they stand. */
export const negligibleStepK = 0.05

/** One kelvin near 134 °C is about this many kilopascals; only for telling whether a step of pressure matters. */
const kilopascalsPerKelvin = 8.9

/** Middle of the time between samples that differ in time. */
export function intervalOf(seconds: Float64Array): number {
  const steps: number[] = []
  for (let index = 1; index < seconds.length; index += 1) {
    const step = at(seconds, index) - at(seconds, index - 1)
    if (step > 0) steps.push(step)
  }
  return medianOf(steps)
}

/** What is to be said of the log as a whole: sampling, gaps, steps, and whether it leads to the end of a cycle. */
export function troubleWithLog(log: SteamLog): SteamFinding[] {
  return [...sampling(log), ...gaps(log.seconds), ...shortGaps(log), ...channelsOf(log).flatMap(coarseSteps)]
}

function sampling({ seconds, intervalSeconds }: SteamLog): SteamFinding[] {
  const found: SteamFinding[] = []
  const interval = Number(intervalSeconds.toFixed(2))
  if (interval > 1.5)
    found.push(
      finding(
        'slow-sampling',
        interval > longestGapSeconds ? 'caution' : 'note',
        `One sample every ${interval} s: times are known no better than that.`,
      ),
    )
  let odd = 0
  for (let index = 1; index < seconds.length; index += 1) {
    const step = at(seconds, index) - at(seconds, index - 1)
    if (step > 0 && (step > intervalSeconds * 1.5 || step < intervalSeconds * 0.5)) odd += 1
  }
  if (odd > 0.05 * seconds.length)
    found.push(finding('irregular-sampling', 'note', 'The time between samples is irregular.'))
  return found
}

function gaps(seconds: Float64Array): SteamFinding[] {
  const places: string[] = []
  for (let index = 1; index < seconds.length; index += 1) {
    const before = at(seconds, index - 1)
    const step = at(seconds, index) - before
    if (step > longestGapSeconds) places.push(`${Math.round(step)} s after ${Math.round(before)} s`)
  }
  if (places.length === 0) return []
  const more = places.length > 3 ? ` and ${places.length - 3} more` : ''
  return [
    finding(
      'gap',
      'caution',
      `Samples are missing for more than ${longestGapSeconds} s: ${places.slice(0, 3).join(', ')}${more}.`,
    ),
  ]
}

/** Gaps that are bridged are still told: a clock that was set forward looks the same. */
function shortGaps({ seconds, intervalSeconds }: SteamLog): SteamFinding[] {
  const least = Math.max(3 * intervalSeconds, 3)
  let count = 0
  let longest = 0
  for (let index = 1; index < seconds.length; index += 1) {
    const step = at(seconds, index) - at(seconds, index - 1)
    if (step < least || step > longestGapSeconds) continue
    count += 1
    longest = Math.max(longest, step)
  }
  if (count === 0) return []
  const says = `${count} short ${count === 1 ? 'gap' : 'gaps'} of up to ${Math.round(longest)} s are taken as straight lines; a clock set forward would look the same.`
  return [finding('short-gaps', 'note', says)]
}

function coarseSteps(channel: Channel): SteamFinding[] {
  const kelvins = channel.role === 'pressure' ? channel.resolution / kilopascalsPerKelvin : channel.resolution
  if (kelvins < negligibleStepK) return []
  const unit = channel.role === 'pressure' ? 'kPa' : 'K'
  const says = `"${channel.name}" is written in steps of ${Number(channel.resolution.toFixed(3))} ${unit}; each reading is judged with half a step either way.`
  return [finding('coarse-steps', kelvins >= 0.5 ? 'caution' : 'note', says)]
}
