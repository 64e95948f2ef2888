import type { Suspects } from '#service/api-types.ts'
import { words } from '../../words/words.ts'

type Sample = Suspects['samples'][number]

/** What came of a sample, in words: waiting and no growth are results too. */
export function resultOfSample({ standing, organism, acidFast, sameAsWounds }: Sample): string {
  const w = words.wounds
  if (standing === 'waiting') return w.investigation.waiting.toLowerCase()
  return [
    standing === 'growth' ? words.theatre.cultures.growth : words.theatre.cultures.noGrowth,
    organism ?? undefined,
    acidFast === 'positive' ? words.theatre.wound.acidFast : undefined,
    sameAsWounds === null || sameAsWounds === 'notCompared' ? undefined : w.suspects.comparedWith[sameAsWounds],
  ]
    .filter((part) => part !== undefined)
    .join(', ')
}
