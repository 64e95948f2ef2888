/*
 * Porous-load cycles with a known truth: smooth channels as functions of time, before any sensor or logger touches them.
 * Nothing here uses the reader or its equations.
 */

/** What a simulated cycle does. Temperatures are steam temperatures; the pressure follows them. */
export interface CycleShape {
  readonly sterilisationC: number
  /** Wanted from the last load reaching the temperature to the last sample at it, s. */
  readonly holdSeconds: number
  /** Delay of each load behind the reference, s; none for a routine log. */
  readonly loadDelays: readonly number[]
  /** How far the plateau lies above the sterilisation temperature, K. */
  readonly riseK: number
  readonly riseSeconds: number
  /** Added to the pressure in the hot part, kPa. */
  readonly pressureOffsetKPa: number
  /** A load that runs hotter than the others in the middle of the plateau, K. */
  readonly hotLoadK: number
  /** A fall of all channels in the middle of the plateau, K and s. */
  readonly dip: { readonly depthK: number; readonly seconds: number } | null
  /** Free space above the pack over the reference after the first minute, K; null for no such sensor. */
  readonly aboveK: number | null
  readonly pulseLowsKPa: readonly number[]
  readonly dryingSeconds: number
  readonly idleSeconds: number
}

export interface TrueCycle {
  readonly shape: CycleShape
  readonly endSeconds: number
  readonly plateauStart: number
  readonly plateauEnd: number
  readonly pressureKPa: (seconds: number) => number
  readonly referenceC: (seconds: number) => number
  readonly loadsC: readonly ((seconds: number) => number)[]
  readonly aboveC: ((seconds: number) => number) | null
}

type Point = readonly [number, number]
const dropPerSecond = 0.5

/** Builds the channels of a cycle. */
export function trueCycle(shape: CycleShape): TrueCycle {
  const { sterilisationC: set, riseK, riseSeconds, idleSeconds } = shape
  const pulses = pulsePoints(shape)
  const pulsesEnd = pulses.at(-1)?.[0] ?? idleSeconds
  const start = pulsesEnd + 240
  const equilibrated = start + Math.max(0, ...shape.loadDelays)
  // The drop crosses the temperature this many whole seconds after it begins.
  const end = equilibrated + shape.holdSeconds - Math.floor(riseK / dropPerSecond)
  const cold = end + (set + riseK - 100) / dropPerSecond
  const dried = cold + 60 + shape.dryingSeconds
  const plateau = (delay: number, extraK: number): Point[] => [
    [0, 25],
    [idleSeconds, 25],
    [pulsesEnd, 60],
    [start - 120, 100 - delay],
    [start + delay, set],
    [start + delay + riseSeconds, set + riseK],
    ...bump(start + delay + riseSeconds + 15, end - 15, set + riseK, extraK),
    ...dipPoints(shape, start + delay + riseSeconds, end),
    [end, set + riseK],
    [cold, 100],
    [dried, 60],
    [dried + 120, 50],
  ]
  const steam = lineThrough(plateau(0, 0))
  const after = lineThrough([
    [cold, 101],
    [cold + 60, 6],
    [dried, 6],
    [dried + 40, 100],
    [dried + 120, 100],
  ])
  const before = lineThrough(pulses)
  const heatingFrom = before(pulsesEnd)
  const pressureKPa = (seconds: number): number => {
    if (seconds <= pulsesEnd) return before(seconds)
    if (seconds >= cold) return after(seconds)
    const saturated = wagnerPrussKPa(steam(seconds)) + shape.pressureOffsetKPa
    const blend = Math.min(1, (seconds - pulsesEnd) / 120)
    return heatingFrom * (1 - blend) + saturated * blend
  }
  return {
    shape,
    endSeconds: dried + 120,
    plateauStart: start,
    plateauEnd: end,
    pressureKPa,
    referenceC: steam,
    loadsC: shape.loadDelays.map((delay, index) => lineThrough(plateau(delay, index === 0 ? shape.hotLoadK : 0))),
    aboveC: shape.aboveK === null ? null : aboveOf(steam, start, shape.aboveK),
  }
}

function aboveOf(steam: (seconds: number) => number, start: number, laterK: number): (seconds: number) => number {
  const excess = lineThrough([
    [start - 100, 0],
    [start, 3],
    [start + 50, 3],
    [start + 58, laterK],
    [start + 6000, laterK],
  ])
  return (seconds) => steam(seconds) + excess(seconds)
}

function pulsePoints({ idleSeconds, pulseLowsKPa }: CycleShape): Point[] {
  const points: Point[] = [
    [0, 100],
    [idleSeconds, 100],
  ]
  let at = idleSeconds
  for (const [index, low] of pulseLowsKPa.entries()) {
    points.push([at + 60, low])
    at += 60
    if (index === pulseLowsKPa.length - 1) break
    points.push([at + 30, 140])
    at += 30
  }
  return points
}

function bump(from: number, to: number, level: number, extraK: number): Point[] {
  return extraK === 0
    ? []
    : [
        [from, level],
        [from + 10, level + extraK],
        [to - 10, level + extraK],
        [to, level],
      ]
}

function dipPoints({ dip, sterilisationC, riseK }: CycleShape, from: number, to: number): Point[] {
  if (dip === null) return []
  const middle = Math.round((from + to) / 2)
  const level = sterilisationC + riseK
  return [
    [middle - 3, level],
    [middle, level - dip.depthK],
    [middle + dip.seconds, level - dip.depthK],
    [middle + dip.seconds + 3, level],
  ]
}

/** The broken line through points in order of time; it remembers where it was, since times mostly go forward. */
function lineThrough(points: readonly Point[]): (seconds: number) => number {
  let place = 1
  return (seconds) => {
    if (seconds <= (points[place - 1]?.[0] ?? 0)) place = 1
    while (place < points.length - 1 && seconds > (points[place]?.[0] ?? 0)) place += 1
    const [from, low] = points[place - 1] ?? [0, 0]
    const [to, high] = points[place] ?? [from, low]
    if (to <= from || seconds >= to) return high
    return seconds <= from ? low : low + ((high - low) * (seconds - from)) / (to - from)
  }
}

/** Saturation pressure by the Wagner-Pruss equation (IAPWS SR1-86), kPa: not the equation the reader uses. */
export function wagnerPrussKPa(temperatureC: number): number {
  const ratio = 1 - (temperatureC + 273.15) / 647.096
  const terms: readonly Point[] = [
    [-7.85951783, 1],
    [1.84408259, 1.5],
    [-11.7866497, 3],
    [22.6807411, 3.5],
    [-15.9618719, 4],
    [1.80122502, 7.5],
  ]
  const sum = terms.reduce((total, [factor, power]) => total + factor * ratio ** power, 0)
  return 22_064 * Math.exp((647.096 / (temperatureC + 273.15)) * sum)
}
