import type { Source } from '#units/source.ts'
import { type CycleFacts, judge, type SteamCriterion } from './criterion.ts'
import { floatTolerance } from './doubt.ts'
import { greatest } from './extremes.ts'
import type { Span } from './hot-regions.ts'
import type { SteamProgram } from './program.ts'
import { at } from './series.ts'
import { largeChamberSource, unitLimitSource } from './sources.ts'

const largeChamberLitres = 800
const firstSeconds = 60
const firstLimitK = 5
const afterLimitK = 2

/** Limit of the equilibration time: the programme's own, else by the chamber's volume. */
export function equilibrationLimit(program: SteamProgram, bySmall: Source): { seconds: number; source: Source } {
  if (program.equilibrationLimitSeconds !== undefined)
    return { seconds: program.equilibrationLimitSeconds, source: unitLimitSource }
  return program.chamberLitres > largeChamberLitres
    ? { seconds: 30, source: largeChamberSource }
    : { seconds: 15, source: bySmall }
}

/** Equilibration: the loads reach the temperature soon after the reference. Needs load sensors. */
export function judgeEquilibration(facts: CycleFacts): SteamCriterion {
  const { equilibration, log } = facts
  const { seconds: limit, source } = equilibrationLimit(facts.program, facts.sourceOf('equilibration'))
  const noLoads = log.loads.length === 0 ? ['a routine log without load sensors cannot show equilibration'] : []
  const noReference =
    equilibration === null && log.loads.length > 0
      ? ['the reference never reaches the temperature, or cannot be believed']
      : []
  const cut =
    facts.endsInside && equilibration?.seconds === null ? ['the log ends before the loads reach the temperature'] : []
  return judge({
    id: 'equilibration',
    title: 'Equilibration time',
    measured: equilibration?.seconds ?? Number.NaN,
    limit,
    unit: 's',
    met: equilibration !== null && equilibration.atMostSeconds <= limit + floatTolerance,
    broken: equilibration !== null && equilibration.atLeastSeconds > limit + floatTolerance,
    obstacles: [...noLoads, ...facts.badTemperatures, ...noReference, ...cut],
    source,
  })
}

/** Free space above the pack in the first 60 s of the plateau. */
export function judgeTopFirst(facts: CycleFacts): SteamCriterion {
  return judgeTop(facts, 'topFirst', 'Above the pack minus reference, first 60 s', firstLimitK)
}

/** Free space above the pack after the first 60 s of the plateau. */
export function judgeTopAfter(facts: CycleFacts): SteamCriterion {
  return judgeTop(facts, 'topAfter', 'Above the pack minus reference, after 60 s', afterLimitK)
}

function judgeTop(facts: CycleFacts, id: 'topFirst' | 'topAfter', title: string, limit: number): SteamCriterion {
  const { log, above } = facts
  const reference = facts.temperatures.find(({ channel }) => channel.role === 'reference')
  const span = topSpan(facts, id)
  const excess =
    span === null || above === null || reference === undefined
      ? null
      : greatest(
          [
            {
              values: log.seconds.map(
                (_, index) => at(above.channel.values, index) - at(reference.channel.values, index),
              ),
              doubt: { step: above.doubt.step + reference.doubt.step, wide: above.doubt.wide + reference.doubt.wide },
            },
          ],
          span,
        )
  return judge({
    id,
    title,
    measured: excess?.logged ?? Number.NaN,
    limit,
    unit: 'K',
    met: excess !== null && excess.atMost <= limit + floatTolerance,
    broken: excess !== null && excess.atLeast > limit + floatTolerance,
    obstacles: topObstacles(facts, span, reference !== undefined),
    source: facts.sourceOf(id),
  })
}

function topObstacles(facts: CycleFacts, span: Span | null, reference: boolean): string[] {
  if (facts.log.above === null) return ['the log has no sensor above the pack']
  if (facts.above === null) return [`"${facts.log.above.name}" cannot be believed`]
  if (!reference) return ['the reference cannot be believed']
  if (span === null) return ['the log has no such part of a plateau']
  return facts.endsInside ? ['the log ends inside the plateau'] : []
}

function topSpan({ log, holding }: CycleFacts, id: 'topFirst' | 'topAfter'): Span | null {
  const { plateauFrom, window } = holding
  if (plateauFrom === null || window === null || window.to < plateauFrom) return null
  let split = plateauFrom
  while (split < window.to && at(log.seconds, split + 1) - at(log.seconds, plateauFrom) <= firstSeconds) split += 1
  if (id === 'topFirst') return { from: plateauFrom, to: split }
  return split < window.to ? { from: split + 1, to: window.to } : null
}
