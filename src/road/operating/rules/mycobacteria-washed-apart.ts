import { tolerantMycobacteria } from '../../baths/sources.ts'
import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { mycobacteriaBefore } from '../patients-before.ts'

/** After a patient with mycobacteria the sleeves and trays are taken apart and brushed: they live on in films. */
export const mycobacteriaWashedApart = defineRule({
  id: 'mycobacteria-washed-apart',
  says: 'After a patient with mycobacteria a set is taken apart, brushed, and sterilised, never left to glutaraldehyde.',
  on: ['soak-started', 'wash-recorded'],
  exceptionAllowed: false,
  check(facts, entry) {
    const rounds = entry.kind === 'soak-started' ? [entry.body.round] : entry.body.rounds
    return rounds
      .filter((round) => mycobacteriaBefore(facts, [round]))
      .map((round) => ({
        weight: 'caution' as const,
        says: `${packName(facts, round)} comes from a patient with mycobacteria. Take apart, brush sleeves and trays, rinse with sterile or filtered water, and sterilise; no glutaraldehyde.`,
        source: tolerantMycobacteria,
      }))
  },
})
