import { atLeast } from './at-most.ts'
import type { Result } from './fields.ts'

/** What is known of one use of a bath. Times are ISO 8601 with offset; null is what nobody recorded. */
export interface BathUse {
  readonly at: string
  readonly activatedAt: string
  readonly reuseDays: number
  readonly expiresAt: string
  readonly strip: 'pass' | 'fail' | { readonly strengthPercent: number; readonly minimumPercent: number } | null
  readonly temperatureC: number | null
  readonly labelTemperatureC: number
  readonly immersedAt: string | null
  readonly removedAt: string | null
  readonly labelContactMinutes: number
  readonly fullyImmersed: boolean | null
  readonly lumensFilled: boolean | null
  readonly cleanAndDry: boolean | null
}

export interface BathReason {
  readonly rule: string
  readonly result: Result
  readonly says: string
}

const msPerMinute = 60_000
const msPerDay = 86_400_000

/** End of the reuse life or of the expiry, whichever comes first, ms since 1970. */
export function usableUntilOf({ activatedAt, reuseDays, expiresAt }: BathUse): number {
  return Math.min(Date.parse(activatedAt) + reuseDays * msPerDay, Date.parse(expiresAt))
}

/** Earliest moment the instruments may come out, ms since 1970; null before immersion. */
export function contactEndOf({ immersedAt, labelContactMinutes }: BathUse): number | null {
  return immersedAt === null ? null : Date.parse(immersedAt) + labelContactMinutes * msPerMinute
}

/** Contact in all, or up to the judgement while the instruments are still in; null before immersion. */
export function contactMinutesOf({ at, immersedAt, removedAt }: BathUse): number | null {
  if (immersedAt === null) return null
  return Math.max(0, Date.parse(removedAt ?? at) - Date.parse(immersedAt)) / msPerMinute
}

/** Every condition of one use, in the order in which a person would check it. */
export function bathReasons(use: BathUse): BathReason[] {
  return [
    stripReason(use),
    lifeReason(use),
    temperatureReason(use),
    contactReason(use),
    seenReason('fully immersed', use.fullyImmersed),
    seenReason('lumens filled', use.lumensFilled),
    seenReason('cleaned and dry before', use.cleanAndDry),
  ]
}

/** A failed strip condemns the whole bath, whatever its age. */
export function stripFailed(use: BathUse): boolean {
  return stripReason(use).result === 'notMet'
}

function stripReason({ strip }: BathUse): BathReason {
  const rule = 'strength'
  if (strip === null) return { rule, result: 'notEvaluable', says: 'no strip result for this use' }
  if (typeof strip === 'string') {
    const says = strip === 'pass' ? 'strip passed' : 'strip failed: discard the whole bath, do not top it up'
    return { rule, result: strip === 'pass' ? 'met' : 'notMet', says }
  }
  const enough = atLeast(strip.strengthPercent, strip.minimumPercent)
  const says = `${strip.strengthPercent} % against a minimum of ${strip.minimumPercent} %`
  return { rule, result: enough ? 'met' : 'notMet', says: enough ? says : `${says}: discard the whole bath` }
}

/** The bath has to last until the contact ends, not only until the instruments go in. */
function lifeReason(use: BathUse): BathReason {
  const needed = Math.max(contactEndOf(use) ?? Date.parse(use.at), Date.parse(use.activatedAt))
  const until = usableUntilOf(use)
  const before = use.immersedAt !== null && Date.parse(use.immersedAt) < Date.parse(use.activatedAt)
  const says = before
    ? 'immersed before the bath was activated'
    : `usable until ${new Date(until).toISOString()}, needed until ${new Date(needed).toISOString()}`
  return { rule: 'age', result: needed <= until && !before ? 'met' : 'notMet', says }
}

function temperatureReason({ temperatureC, labelTemperatureC }: BathUse): BathReason {
  const rule = 'temperature'
  if (temperatureC === null) return { rule, result: 'notEvaluable', says: 'temperature not measured' }
  const result = atLeast(temperatureC, labelTemperatureC) ? 'met' : 'notMet'
  return { rule, result, says: `${temperatureC} °C against at least ${labelTemperatureC} °C` }
}

function contactReason(use: BathUse): BathReason {
  const rule = 'contact'
  const minutes = contactMinutesOf(use)
  if (minutes === null) return { rule, result: 'notEvaluable', says: 'not immersed yet' }
  const says = `${minutes} min against at least ${use.labelContactMinutes} min`
  if (atLeast(minutes, use.labelContactMinutes)) return { rule, result: 'met', says }
  if (use.removedAt === null) return { rule, result: 'notEvaluable', says: `${says}, still in the bath` }
  return { rule, result: 'notMet', says }
}

function seenReason(rule: string, seen: boolean | null): BathReason {
  if (seen === null) return { rule, result: 'notEvaluable', says: 'not recorded' }
  return { rule, result: seen ? 'met' : 'notMet', says: seen ? 'yes' : 'no' }
}
