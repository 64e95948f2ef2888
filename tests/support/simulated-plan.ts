import { readSteamCycles } from '#workings/steam/read-steam-cycles.ts'
import type { SteamCycleReading } from '#workings/steam/reading.ts'
import { type SeededRandom, seededRandom } from './seeded-random.ts'
import { type CycleShape, type TrueCycle, trueCycle } from './simulated-cycle.ts'
import { type LogStyle, mapFor, plainStyle, sampleRows, type SimulatedFault, writeLog } from './simulated-log.ts'
import { type Demands, type Truth, truthOf } from './simulated-truth.ts'

/** One simulated log with its truth and what the reader made of it. */
export interface SimulatedCase {
  readonly seed: number
  readonly shapeKind: string
  readonly faultKind: string
  readonly truth: Truth
  /** The fault takes away evidence that 'met' needs. */
  readonly unevaluable: boolean
  /** A margin is smaller than what the sensors of this log can resolve. */
  readonly withinUncertainty: boolean
  readonly reading: SteamCycleReading | null
  readonly says: string
}

const goodShape: CycleShape = {
  sterilisationC: 134,
  holdSeconds: 215,
  loadDelays: [3, 6, 10],
  riseK: 0.8,
  riseSeconds: 15,
  pressureOffsetKPa: 0,
  hotLoadK: 0,
  dip: null,
  aboveK: null,
  pulseLowsKPa: [8, 8, 8],
  dryingSeconds: 500,
  idleSeconds: 60,
}

export const demands: Demands = {
  sterilisationC: 134,
  bandK: 3,
  holdSeconds: 180,
  maxDifferenceK: 2,
  equilibrationSeconds: 15,
  minimumPulses: 3,
  pulseBelowKPa: 12,
  minimumDryingSeconds: 420,
}

export const simulatedProgram = {
  sterilisationC: 134,
  bandK: 3,
  holdSeconds: 180,
  chamberLitres: 600,
  maxDifferenceK: 2,
  minimumPulses: 3,
  pulseBelowKPa: 12,
  minimumDryingSeconds: 420,
} as const

const shapes: Readonly<Record<string, (random: SeededRandom) => Partial<CycleShape>>> = {
  good: (random) => ({ riseK: random.pick([0.6, 0.8, 1.2, 1.7]), holdSeconds: random.whole(205, 400) }),
  routine: (random) => ({ loadDelays: [], holdSeconds: random.whole(205, 300) }),
  above: () => ({ aboveK: 0.5 }),
  shortHold: (random) => ({ holdSeconds: random.whole(60, 172) }),
  overBand: (random) => ({ riseK: random.between(3.3, 4.4), riseSeconds: 40 }),
  air: (random) => ({ pressureOffsetKPa: random.between(20, 40) }),
  lowPressure: (random) => ({ pressureOffsetKPa: -random.between(13, 30) }),
  hotLoad: (random) => ({ hotLoadK: random.between(2.3, 3) * 0.8, riseK: 0.6, pressureOffsetKPa: -3 }),
  slowEquilibration: (random) => ({ loadDelays: [3, 6, random.whole(20, 40)] }),
  dip: (random) => ({ dip: { depthK: random.between(2, 5), seconds: random.whole(5, 30) } }),
  superheated: (random) => ({ aboveK: random.between(2.4, 4) }),
  shallowPulse: () => ({ pulseLowsKPa: [8, 20, 8] }),
  fewPulses: () => ({ pulseLowsKPa: [8, 8] }),
  shortDrying: () => ({ dryingSeconds: 300 }),
  hold179: () => ({ holdSeconds: 179 }),
  hold180: () => ({ holdSeconds: 180 }),
  hold181: () => ({ holdSeconds: 181 }),
  band1369: () => ({ riseK: 2.9, riseSeconds: 40 }),
  band1371: () => ({ riseK: 3.1, riseSeconds: 40 }),
  spread19: () => ({ hotLoadK: 1.9, riseK: 0.6, riseSeconds: 15 }),
  spread21: () => ({ hotLoadK: 2.1, riseK: 0.6, riseSeconds: 15 }),
  equilibration14: () => ({ loadDelays: [3, 14] }),
  equilibration16: () => ({ loadDelays: [3, 16] }),
}
const shapeNames = Object.keys(shapes)

const faultNames = [
  'none',
  'none',
  'noise',
  'step 0.1',
  'step 1',
  'duplicates',
  'shuffled',
  'shortGaps',
  'longGap',
  'truncated',
  'truncatedLate',
  'stuck load',
  'stuck reference',
  'stuck pressure',
  'dead load',
  'dead reference',
  'dead pressure',
  'slow',
  'irregular',
  'idle',
  'two cycles',
  'stuck in noise',
  'noise and step',
] as const
type FaultName = (typeof faultNames)[number]

const destroying: ReadonlySet<FaultName> = new Set([
  'longGap',
  'truncated',
  'stuck load',
  'stuck reference',
  'stuck pressure',
  'dead load',
  'dead reference',
  'dead pressure',
  'stuck in noise',
  'truncatedLate',
])

/** Draws, writes and reads one log; the same seed gives the same log. */
export function simulateCase(seed: number): SimulatedCase {
  const random = seededRandom(seed)
  const shapeKind = shapeNames[seed % shapeNames.length] ?? 'good'
  const faultKind = faultNames[Math.floor(seed / shapeNames.length) % faultNames.length] ?? 'none'
  const shape: CycleShape = {
    ...goodShape,
    ...shapes[shapeKind]?.(random),
    ...(faultKind === 'idle' ? { idleSeconds: 3 * 3600 } : {}),
  }
  const cycle = trueCycle(shape)
  const style = styleFor(faultKind, random)
  const fault = faultFor(faultKind, cycle, random)
  const loads = shape.loadDelays.length
  const rows = sampleRows(cycle, style, fault, random)
  if (faultKind === 'two cycles')
    rows.unshift(
      ...sampleRows(
        trueCycle({ ...goodShape, loadDelays: shape.loadDelays, aboveK: shape.aboveK === null ? null : 0.5 }),
        style,
        { kind: 'none' },
        random,
        -5400,
      ),
    )
  const log = writeLog(
    rows.map((row) => ({ ...row, seconds: row.seconds + 5400 })),
    style,
    loads,
    shape.aboveK !== null,
  )
  const result = readSteamCycles({ log, program: simulatedProgram, map: mapFor(style, loads, shape.aboveK !== null) })
  const truth = truthOf(cycle, demands)
  return {
    seed,
    shapeKind,
    faultKind,
    truth,
    unevaluable:
      destroying.has(faultKind) &&
      !(faultKind === 'stuck load' && loads === 0) &&
      !(faultKind === 'dead load' && loads === 0),
    withinUncertainty: isWithinUncertainty(truth, style),
    reading: result.kind === 'read' ? (result.cycles.at(-1) ?? null) : null,
    says: result.kind === 'read' ? `${result.cycles.length} cycles` : JSON.stringify(result.problem),
  }
}

/** What steps, noise and sampling leave open, by plain rules of thumb. */
function isWithinUncertainty({ margins }: Truth, { noiseK, stepK, intervalSeconds, irregular }: LogStyle): boolean {
  const kelvin = 5 * noiseK + (stepK >= 0.05 ? stepK : 0)
  const slow = irregular ? 2 * intervalSeconds : intervalSeconds
  const seconds = kelvin * 8 + (slow > 1 ? 2 * slow : 0)
  const { hold, band, saturation, spread, equilibration, above } = margins
  const small = (margin: number, doubt: number) => doubt > 0 && Math.abs(margin) <= doubt
  return (
    small(hold, seconds) ||
    small(equilibration, seconds) ||
    small(band, kelvin) ||
    small(saturation, kelvin) ||
    small(spread, 2 * kelvin) ||
    small(above, 2 * kelvin)
  )
}

function styleFor(fault: FaultName, random: SeededRandom): LogStyle {
  const delimiter = random.pick<LogStyle['delimiter']>([',', ';', '\t'])
  const step = fault === 'step 1' ? 1 : fault === 'step 0.1' || fault === 'noise and step' ? 0.1 : 0
  return {
    ...plainStyle,
    delimiter,
    decimal: random.pick(['.', ',']),
    temperatureUnit: step > 0 ? 'C' : random.pick(['C', 'F']),
    pressureUnit: random.pick(['kPa', 'bar', 'mbar', 'psi']),
    gauge: random.next() < 0.3,
    time: random.pick(['seconds', 'clock', 'dated', 'iso']),
    dressing: random.pick(['plain', 'dressed']),
    noiseK: fault.includes('noise') ? random.between(0.02, 0.1) : 0,
    stepK: step,
    intervalSeconds: fault === 'slow' ? random.pick([2, 5, 10, 30]) : fault === 'irregular' ? random.whole(2, 5) : 1,
    irregular: fault === 'irregular',
  }
}

function faultFor(fault: FaultName, cycle: TrueCycle, random: SeededRandom): SimulatedFault {
  const load = cycle.loadsC.length === 0 ? -1 : 1 + random.whole(1, cycle.loadsC.length)
  const channel = fault.endsWith('load') ? load : fault.endsWith('reference') ? 1 : 0
  if (fault === 'stuck in noise')
    return { kind: 'stuck', channel: 1, from: cycle.plateauEnd - 120, to: cycle.plateauEnd - 30 }
  if (fault.startsWith('stuck'))
    return { kind: 'stuck', channel, from: cycle.plateauEnd - random.whole(20, 120), to: cycle.endSeconds }
  if (fault.startsWith('dead')) return { kind: 'dead', channel, value: random.pick([null, 0, -200, 850, 9999]) }
  switch (fault) {
    case 'duplicates':
    case 'shuffled':
    case 'shortGaps':
    case 'longGap':
    case 'truncated':
    case 'truncatedLate':
      return { kind: fault }
    default:
      return { kind: 'none' }
  }
}

/** Counts over many cases, and the cases that went wrong. */
export interface SimulatedTally {
  readonly logs: number
  readonly falsePasses: readonly SimulatedCase[]
  readonly falseFails: readonly SimulatedCase[]
  readonly undecided: readonly SimulatedCase[]
  readonly uncertain: number
  readonly uncertainPasses: number
  readonly unread: readonly SimulatedCase[]
  readonly trulyMet: number
}

/**
 * A false pass: read as met though the truth is not, or though the fault took the evidence away. A false fail: read as
 * not met though the truth is met. Undecided: truly met, evidence there, yet not evaluable. Cases within the uncertainty
 * of their sensors are counted apart.
 */
export function tallyOf(cases: readonly SimulatedCase[]): SimulatedTally {
  const certain = cases.filter(({ withinUncertainty }) => !withinUncertainty)
  const uncertain = cases.filter(({ withinUncertainty }) => withinUncertainty)
  const isMet = ({ reading }: SimulatedCase) => reading?.verdict === 'met'
  const wrongly = (one: SimulatedCase) => isMet(one) && (one.truth.verdict === 'notMet' || one.unevaluable)
  return {
    logs: cases.length,
    falsePasses: certain.filter(wrongly),
    falseFails: certain.filter(({ truth, reading }) => truth.verdict === 'met' && reading?.verdict === 'notMet'),
    undecided: certain.filter(
      ({ truth, reading, unevaluable }) =>
        truth.verdict === 'met' && !unevaluable && reading?.verdict === 'notEvaluable',
    ),
    uncertain: uncertain.length,
    uncertainPasses: uncertain.filter(wrongly).length,
    unread: cases.filter(({ reading }) => reading === null),
    trulyMet: certain.filter(({ truth }) => truth.verdict === 'met').length,
  }
}

export function describeTally(tally: SimulatedTally): string {
  const by = (cases: readonly SimulatedCase[]) => {
    const counts = new Map<string, number>()
    for (const { faultKind } of cases) counts.set(faultKind, (counts.get(faultKind) ?? 0) + 1)
    return [...counts].map(([kind, count]) => `${kind} ${count}`).join(', ') || 'none'
  }
  return [
    `${tally.logs} simulated logs, ${tally.trulyMet} truly met and away from every limit's uncertainty`,
    `false passes ${tally.falsePasses.length}: ${by(tally.falsePasses)}`,
    `false fails ${tally.falseFails.length}: ${by(tally.falseFails)}`,
    `truly met but not evaluable ${tally.undecided.length}: ${by(tally.undecided)}`,
    `within sensor uncertainty ${tally.uncertain}, of them passed though not truly met ${tally.uncertainPasses}`,
    `unusable ${tally.unread.length}: ${by(tally.unread)}`,
  ].join('\n')
}
