import { clopperPearsonLimits } from '#workings/statistics/prop-ci-clopper-pearson.ts'
import { hasGrown, isRead, type LoadKnown } from './load-fold.ts'

/** What was sterilised in a month, and what of it failed or cannot be said. */
export interface MonthFigures {
  /** Loads with goods that were built in the month. */
  readonly loads: number
  readonly cycle: {
    readonly met: number
    readonly notMet: number
    readonly notEvaluable: number
    /** Nobody read a log in: of these nothing is known, and they are no pass. */
    readonly notLogged: number
    readonly cancelled: number
  }
  /** Of the loads with a logged and evaluable cycle, those whose cycle did not meet its limits; with its exact 95 % interval. */
  readonly failed: { readonly of: number; readonly interval: readonly [number, number] | null }
  readonly chemical: {
    readonly passed: number
    readonly failed: number
    readonly missing: number
    readonly loadsWithout: number
  }
  readonly biological: { readonly noGrowth: number; readonly growth: number; readonly awaited: number }
  readonly packs: {
    readonly released: number
    readonly quarantined: number
    readonly rejected: number
    readonly undecided: number
  }
  readonly airRemoval: { readonly passed: number; readonly failed: number }
}

/** Counts the loads of a month. What was not read is counted as that, never as good. */
export function monthFigures(built: readonly LoadKnown[]): MonthFigures {
  const goods = built.filter(({ purpose }) => purpose === 'goods')
  const count = (is: (load: LoadKnown) => boolean): number => goods.filter(is).length
  const verdict = (wanted: 'met' | 'notMet' | 'notEvaluable') => count((load) => load.cycle?.report.verdict === wanted)
  const cycle = {
    met: verdict('met'),
    notMet: verdict('notMet'),
    notEvaluable: verdict('notEvaluable'),
    notLogged: count((load) => load.cycle === null && load.gas.cancelled === null),
    cancelled: count((load) => load.cycle === null && load.gas.cancelled !== null),
  }
  const of = cycle.met + cycle.notMet
  const chemical = built.flatMap((load) => load.chemical.map(({ result }) => result))
  const read = (wanted: (typeof chemical)[number]) => chemical.filter((result) => result === wanted).length
  const packs = goods.flatMap((load) => load.decision?.packs.map(({ outcome }) => outcome) ?? [])
  const decided = (wanted: (typeof packs)[number]) => packs.filter((outcome) => outcome === wanted).length
  return {
    loads: goods.length,
    cycle,
    failed: { of, interval: of === 0 ? null : clopperPearsonLimits(cycle.notMet, of, 0.95) },
    chemical: {
      passed: read('passed'),
      failed: read('failed'),
      missing: read('missing'),
      loadsWithout: count(({ chemical }) => chemical.length === 0),
    },
    biological: {
      noGrowth: built.filter((load) => isRead(load) && !hasGrown(load)).length,
      growth: built.filter(hasGrown).length,
      awaited: built.filter((load) => load.challenge?.biologicalLot !== undefined && !isRead(load)).length,
    },
    packs: {
      released: decided('released'),
      quarantined: decided('quarantined'),
      rejected: decided('rejected'),
      undecided: goods.reduce((sum, { rounds, decision }) => sum + rounds.length - (decision?.packs.length ?? 0), 0),
    },
    airRemoval: {
      passed: built.filter(({ airRemoval }) => airRemoval?.result === 'passed').length,
      failed: built.filter(({ airRemoval }) => airRemoval?.result === 'failed').length,
    },
  }
}
