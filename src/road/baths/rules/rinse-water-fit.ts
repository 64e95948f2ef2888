import { defineRule } from '../../rule.ts'
import type { SubjectId } from '../../subject.ts'
import type { Facts } from '../../facts.ts'
import type { RinseWater } from '../entries.ts'
import { rinseWater } from '../sources.ts'

/** The last rinse does not bring back what the bath has killed. */
export const rinseWaterFit = defineRule({
  id: 'rinse-water-fit',
  says: 'The last rinse is sterile or filtered; other water is followed by alcohol and air, and never after sterilising.',
  on: ['bath-rinsed', 'immersion-decided'],
  exceptionAllowed: false,
  check(facts, entry) {
    if (entry.kind === 'bath-rinsed') {
      return isClean(entry.body.water) || claimOf(facts, entry.body.immersion) !== 'sterilise'
        ? []
        : [{ weight: 'caution', says: notAfterSterilising, measured: entry.body.water, source: rinseWater }]
    }
    if (entry.body.outcome !== 'readyForUse') return []
    const rinses = facts.known(entry.body.immersion)?.rinses ?? []
    const last = rinses.at(-1)
    if (last === undefined) return []
    if (claimOf(facts, entry.body.immersion) === 'sterilise') {
      const unfit = rinses.find((rinse) => rinse.water !== 'sterile')
      return unfit === undefined
        ? []
        : [{ weight: 'stop', says: notAfterSterilising, measured: unfit.water, limit: 'sterile', source: rinseWater }]
    }
    if (isClean(last.water) || last.alcoholAndAir) return []
    return [
      {
        weight: 'stop',
        says: 'Rinse water carries mycobacteria. Rinse last in sterile or filtered water, or flush with alcohol and dry with air.',
        measured: last.water,
        limit: 'sterile, filtered, or alcohol and air afterwards',
        source: rinseWater,
      },
    ]
  },
})

const notAfterSterilising = 'After sterilising only sterile water is used: any other water makes it unsterile again.'

function isClean(water: RinseWater): boolean {
  return water === 'sterile' || water === 'filtered'
}

function claimOf(facts: Facts, immersion: SubjectId<'immersion'>) {
  return facts.known(immersion)?.started?.claim
}
