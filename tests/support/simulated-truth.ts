import { type TrueCycle, wagnerPrussKPa } from './simulated-cycle.ts'

/** The figures of the true channels, and each criterion's margin: negative is broken. */
export interface Truth {
  readonly verdict: 'met' | 'notMet'
  readonly holdSeconds: number
  /** Margins in seconds and kelvin. */
  readonly margins: {
    readonly hold: number
    readonly band: number
    readonly saturation: number
    readonly spread: number
    readonly equilibration: number
    readonly above: number
  }
  readonly pulsesOk: boolean
  readonly dryingOk: boolean
}

export interface Demands {
  readonly sterilisationC: number
  readonly bandK: number
  readonly holdSeconds: number
  readonly maxDifferenceK: number
  readonly equilibrationSeconds: number
  readonly minimumPulses: number
  readonly pulseBelowKPa: number
  readonly minimumDryingSeconds: number
}

/** Judges the true channels second by second, word for word as the definition has it. */
export function truthOf(cycle: TrueCycle, demands: Demands): Truth {
  const { sterilisationC: set } = demands
  const seconds = Array.from({ length: Math.floor(cycle.endSeconds) + 1 }, (_, index) => index)
  const temperatures = (t: number) => [cycle.referenceC(t), ...cycle.loadsC.map((load) => load(t))]
  const hot = seconds.filter((t) => Math.min(...temperatures(t)) >= set - 1e-9)
  const t0 = seconds.find((t) => cycle.referenceC(t) >= set - 1e-9) ?? Number.NaN
  const best = longestStretch(hot)
  const during = hot.filter((t) => t >= best.from && t <= best.to)
  const instants = during.map((t) => ({ all: temperatures(t), saturation: saturationC(cycle.pressureKPa(t)) }))
  const highest = Math.max(...instants.map(({ all }) => Math.max(...all)))
  const spread = Math.max(
    ...instants.map(({ all, saturation }) => Math.max(...all, saturation) - Math.min(...all, saturation)),
  )
  const saturations = instants.map(({ saturation }) => saturation)
  const { aboveC, shape } = cycle
  const later = seconds.filter((t) => t > t0 + 60 && t <= best.to)
  const above = aboveC === null ? 0 : Math.max(...later.map((t) => aboveC(t) - cycle.referenceC(t)))
  const margins = {
    hold: best.to - best.from - demands.holdSeconds,
    band: set + demands.bandK - highest,
    saturation: Math.min(Math.min(...saturations) - set, set + demands.bandK - Math.max(...saturations)),
    spread: demands.maxDifferenceK - spread,
    equilibration: shape.loadDelays.length === 0 ? 99 : demands.equilibrationSeconds - ((hot[0] ?? Number.NaN) - t0),
    above: aboveC === null ? 9 : 2 - above,
  }
  const pulsesOk = shape.pulseLowsKPa.filter((low) => low <= demands.pulseBelowKPa).length >= demands.minimumPulses
  const dryingOk = shape.dryingSeconds >= demands.minimumDryingSeconds
  const met = pulsesOk && dryingOk && Object.values(margins).every((margin) => margin >= -1e-9)
  return { verdict: met ? 'met' : 'notMet', holdSeconds: best.to - best.from, margins, pulsesOk, dryingOk }
}

function longestStretch(seconds: readonly number[]): { from: number; to: number } {
  let best = { from: 0, to: 0 }
  let from = seconds[0] ?? 0
  for (const [index, t] of seconds.entries()) {
    if (t !== (seconds[index - 1] ?? t - 1) + 1) from = t
    if (t - from > best.to - best.from) best = { from, to: t }
  }
  return best
}

/** Inverse of the saturation line by halving. */
function saturationC(pressureKPa: number): number {
  let low = 20
  let high = 200
  for (let step = 0; step < 50; step += 1) {
    const middle = (low + high) / 2
    if (wagnerPrussKPa(middle) < pressureKPa) low = middle
    else high = middle
  }
  return (low + high) / 2
}
