import type { Source } from '#units/source.ts'
import { caseDefinitionTable, organSpaceRecalled } from './sources.ts'

/*
 * When a wound counts as a surgical site infection: one criterion of its depth is enough, unless something
 * rules it out. The words are ours; the substance is that of the surveillance definition.
 */

export const depths = ['superficial', 'deep', 'organSpace'] as const
export type Depth = (typeof depths)[number]

export const woundCriteria = [
  'pusFromIncision',
  'organismFromIncision',
  'openedBySurgeonWithSigns',
  'diagnosedBySurgeon',
  'pusFromDeep',
  'openedOrBurstWithFeverOrPain',
  'abscessOfDeep',
  'pusFromDrain',
  'organismFromSpace',
  'abscessOfSpace',
] as const
export type WoundCriterion = (typeof woundCriteria)[number]

/** What takes a criterion away again. */
export const exclusions = ['cultureNegative', 'stitchAbscessOnly'] as const

/** All that may be ticked. */
export const ruledCriteria = [...woundCriteria, ...exclusions] as const
export type RuledCriterion = (typeof ruledCriteria)[number]

interface CriterionFacts {
  readonly depth: Depth
  /** Whether a negative culture takes it away. */
  readonly needsNoNegativeCulture: boolean
  readonly source: Source
}

const criterion = (depth: Depth, source: Source, needsNoNegativeCulture = false): CriterionFacts => ({
  depth,
  needsNoNegativeCulture,
  source,
})

export const criterionFacts: Readonly<Record<WoundCriterion, CriterionFacts>> = Object.freeze({
  pusFromIncision: criterion('superficial', caseDefinitionTable),
  organismFromIncision: criterion('superficial', caseDefinitionTable),
  openedBySurgeonWithSigns: criterion('superficial', caseDefinitionTable, true),
  diagnosedBySurgeon: criterion('superficial', caseDefinitionTable),
  pusFromDeep: criterion('deep', caseDefinitionTable),
  openedOrBurstWithFeverOrPain: criterion('deep', caseDefinitionTable, true),
  abscessOfDeep: criterion('deep', caseDefinitionTable),
  pusFromDrain: criterion('organSpace', organSpaceRecalled),
  organismFromSpace: criterion('organSpace', organSpaceRecalled),
  abscessOfSpace: criterion('organSpace', organSpaceRecalled),
})

const rank: Readonly<Record<Depth, number>> = { superficial: 0, deep: 1, organSpace: 2 }

export interface DefinitionVerdict {
  readonly meets: boolean
  /** The deepest level that a criterion shows; null when none does. */
  readonly depth: Depth | null
  /** The criteria that count, after what rules them out. */
  readonly counted: readonly WoundCriterion[]
}

/**
 * Judges the criteria that were seen. When criteria of several depths are met the deepest stands.
 * @example judgeByDefinition(['pusFromIncision', 'abscessOfDeep']) // meets, deep
 */
export function judgeByDefinition(seen: readonly RuledCriterion[]): DefinitionVerdict {
  const negative = seen.includes('cultureNegative')
  const stitch = seen.includes('stitchAbscessOnly')
  const counted = woundCriteria.filter((each) => {
    if (!seen.includes(each)) return false
    const facts = criterionFacts[each]
    if (negative && facts.needsNoNegativeCulture) return false
    return !(stitch && facts.depth === 'superficial')
  })
  const deepest = counted
    .map((each) => criterionFacts[each].depth)
    .reduce<Depth | null>((deep, next) => (deep === null || rank[next] > rank[deep] ? next : deep), null)
  return { meets: deepest !== null, depth: deepest, counted }
}
