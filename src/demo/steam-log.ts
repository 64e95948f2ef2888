import { saturationPressureKPa } from '#workings/physics/saturation-pressure.ts'
import type { Dice } from './dice.ts'

/** What a simulated cycle does otherwise than it should. */
export interface CycleShape {
  readonly plateauSeconds: number
  readonly dryingSeconds: number
  /** How deep the vacuum of the drying gets. */
  readonly dryingKPa: number
  /** Air that was left in the chamber: by Dalton's law its pressure adds to that of the steam. */
  readonly airKPa?: number
}

export const soundCycle: CycleShape = { plateauSeconds: 240, dryingSeconds: 840, dryingKPa: 6 }
export const shortHoldCycle: CycleShape = { ...soundCycle, plateauSeconds: 150 }
export const shortDryingCycle: CycleShape = { ...soundCycle, dryingSeconds: 150, dryingKPa: 31 }
/** 30 kPa of air: the temperature stays behind what the pressure would be of steam alone. */
export const airLeftCycle: CycleShape = { ...soundCycle, airKPa: 30 }
export const airRemovalCycle: CycleShape = { ...soundCycle, plateauSeconds: 260, dryingSeconds: 120 }

interface Point {
  readonly seconds: number
  readonly kPa: number
  readonly celsius: number
}

const atmosphereKPa = 101.3
const plateauC = 134.9
const everySeconds = 5

/**
 * The log of a porous-load cycle with three air-removal pulses, straight between its corner points, with the small
 * unrest of valves and sensors. Two decimals for the temperature, one for the pressure, a row every five seconds.
 */
export function steamLogText(dice: Dice, shape: CycleShape): { readonly text: string; readonly seconds: number } {
  const corners = cornersOf(dice, shape)
  const seconds = corners.at(-1)?.seconds ?? 0
  const rows = ['elapsed,chamber pressure,drain', 's,kPa,C']
  for (let now = 0, corner = 0; now <= seconds; now += everySeconds) {
    while ((corners[corner + 1]?.seconds ?? Infinity) < now) corner += 1
    const { kPa, celsius } = between(corners[corner], corners[corner + 1], now)
    const sway = 0.12 * Math.sin(now / 17) + dice.between(-0.04, 0.04)
    const steady = celsius >= plateauC
    const shown = celsius + sway
    const air = steady ? (shape.airKPa ?? 0) : 0
    const pressure = steady ? saturationPressureKPa(shown) + air : kPa + dice.between(-0.2, 0.2)
    rows.push(`${now},${(pressure + dice.between(-0.3, 0.3)).toFixed(1)},${shown.toFixed(2)}`)
  }
  return { text: `${rows.join('\n')}\n`, seconds }
}

function cornersOf(dice: Dice, shape: CycleShape): readonly Point[] {
  const corners: Point[] = [{ seconds: 0, kPa: atmosphereKPa, celsius: dice.between(58, 72) }]
  let now = 0
  const go = (after: number, kPa: number, celsius: number) => {
    now += after
    corners.push({ seconds: now, kPa, celsius })
  }
  for (const [high, warm] of [
    [118, 98],
    [152, 108],
    [168, 113],
  ] as const) {
    go(dice.whole(80, 95), dice.between(5.6, 6.8), warm - dice.between(24, 30))
    go(dice.whole(40, 50), high + dice.between(-4, 4), warm + dice.between(-1, 1))
  }
  go(dice.whole(70, 85), dice.between(5.6, 6.8), 92)
  go(dice.whole(150, 180), saturationPressureKPa(plateauC), plateauC)
  go(shape.plateauSeconds + dice.whole(0, 12), saturationPressureKPa(plateauC), plateauC)
  go(45, 140, 112)
  go(70, shape.dryingKPa + 6, 96)
  go(shape.dryingSeconds, shape.dryingKPa, 78)
  go(40, atmosphereKPa, 74)
  return corners
}

function between(from: Point | undefined, to: Point | undefined, now: number): { kPa: number; celsius: number } {
  if (from === undefined || to === undefined) return { kPa: atmosphereKPa, celsius: 74 }
  const share = (now - from.seconds) / (to.seconds - from.seconds)
  return {
    kPa: from.kPa + share * (to.kPa - from.kPa),
    celsius: from.celsius + share * (to.celsius - from.celsius),
  }
}
