import type { Lumen } from '../attributes.ts'
import type { LumenClaim } from './claims.ts'

/** What else lies in the load with the device. */
export interface LoadAround {
  readonly lumens: number
  readonly massKg: number | null
  readonly otherDevices: boolean
}

/** How a device's lumens stand to one claim. What is not stated of a lumen cannot be held against the claim. */
export type ClaimFit =
  | { readonly kind: 'fits' }
  | { readonly kind: 'doesNotFit'; readonly because: string }
  | { readonly kind: 'notStated'; readonly what: string }

export function channelsOf(lumens: readonly Lumen[]): number {
  return lumens.reduce((sum, lumen) => sum + (lumen.channels ?? 1), 0)
}

export function fitsClaim(lumens: readonly Lumen[], claim: LumenClaim, around: LoadAround): ClaimFit {
  const channels = channelsOf(lumens)
  const because =
    lumens.map((lumen) => againstLumen(lumen, claim)).find((reason) => reason !== null) ??
    againstLoad(channels, claim, around)
  if (because !== null) return { kind: 'doesNotFit', because }
  if (lumens.some((lumen) => lumen.material === undefined)) return { kind: 'notStated', what: 'material of the lumen' }
  if (claim.blind !== true && lumens.some((lumen) => lumen.openEnds === undefined)) {
    return { kind: 'notStated', what: 'open ends of the lumen' }
  }
  if (claim.maxLoadKg !== undefined && around.massKg === null) return { kind: 'notStated', what: 'mass of the load' }
  return { kind: 'fits' }
}

function againstLumen(lumen: Lumen, claim: LumenClaim): string | null {
  if (lumen.material !== undefined && !claim.materials.includes(lumen.material)) return `not for ${lumen.material}`
  if (lumen.diameterMm < claim.minDiameterMm) return `${lumen.diameterMm} mm is narrower than ${claim.minDiameterMm} mm`
  if (lumen.lengthMm > claim.maxLengthMm) return `${lumen.lengthMm} mm is longer than ${claim.maxLengthMm} mm`
  if (lumen.openEnds === 1 && claim.blind !== true) return 'open at one end only'
  if ((lumen.flexible ?? false) !== claim.flexible)
    return claim.flexible ? 'for flexible channels only' : 'for rigid lumens only'
  return null
}

function againstLoad(channels: number, claim: LumenClaim, around: LoadAround): string | null {
  if (channels > claim.maxChannels) return `${channels} channels, claimed are ${claim.maxChannels}`
  if (claim.alone === true && around.otherDevices) return 'nothing else may lie in the load'
  const lumens = channels + around.lumens
  if (claim.maxLumensInLoad !== undefined && lumens > claim.maxLumensInLoad) {
    return `${lumens} lumens in the load, claimed are ${claim.maxLumensInLoad}`
  }
  if (claim.maxLoadKg !== undefined && around.massKg !== null && around.massKg > claim.maxLoadKg) {
    return `${around.massKg} kg in the load, claimed are ${claim.maxLoadKg} kg`
  }
  return null
}
