import { z } from 'zod'
import { ChangedLimits, casePolicy } from '../deciding/case-policy.ts'
import { defineTopic } from '../deciding/topic.ts'
import type { Finding } from '../finding.ts'
import { clusterCases, clusterDays, lateOnsetDays } from './limits.ts'
import { mycobacteriaSuspected } from './port-infection.ts'
import { portOnset, portRules, rinseWaterOutbreak, strainInGlutaraldehyde } from './sources.ts'

const chemicals = [
  'none',
  'glutaraldehyde',
  'orthoPhthalaldehyde',
  'peraceticAcid',
  'hydrogenPeroxide',
  'other',
] as const

export const portInfectionTopic = defineTopic({
  topic: 'port-infection',
  title: 'Is a wound at a port ordinary or mycobacterial, and what changes in the unit?',
  decisions: {
    ordinary: 'an ordinary surgical site infection: the rules for mycobacteria do not apply',
    suspectMycobacteria: 'stain for acid-fast rods, culture tissue for longer than 7 days, look for more',
    cluster: 'several that share something: sample water, trays and sleeves, and search for the source',
    switchMethod: 'stop glutaraldehyde; sterilise, or use ortho-phthalaldehyde or peracetic acid',
  },
  given: z.strictObject({
    onsetDays: z.number().nonnegative().describe('Days from the operation to the onset'),
    acidFast: z.enum(['notDone', 'pending', 'negative', 'positive']).default('notDone'),
    mycobacteriaGrew: z.boolean().default(false).describe('Mycobacteria grew that are not tuberculosis'),
    culture: z.enum(['notTaken', 'pending', 'noGrowth', 'growth']).default('notTaken').describe('The ordinary culture'),
    noResponse: z.boolean().default(false).describe('No response to the usual antibiotics'),
    nodulesOrSinus: z.boolean().default(false).describe('Nodules or a sinus at the port'),
    chemical: z.enum(chemicals).default('none').describe('What the unit disinfects its instruments with'),
    linkedCases: z
      .int()
      .min(0)
      .default(0)
      .describe('Others of the kind within the days of a cluster that share set, chemical, theatre or water'),
    limits: ChangedLimits,
  }),
  sources: [portOnset, strainInGlutaraldehyde, rinseWaterOutbreak, portRules],
  example: { given: { onsetDays: 39, acidFast: 'positive' }, decision: 'suspectMycobacteria' },
  decide(given) {
    const policy = casePolicy(given.limits)
    const suspected = mycobacteriaSuspected(given, policy)
    const late = policy.limit(lateOnsetDays)
    if (suspected === 'no') {
      const says =
        'Nothing speaks for mycobacteria. Treat and count it as an ordinary infection; go on with the follow-up.'
      return { decision: 'ordinary', findings: [onset('note', says, given.onsetDays, late)] }
    }
    const findings: Finding[] = [
      onset(
        'caution',
        suspected === 'proven'
          ? 'Mycobacteria are shown. Take tissue, culture it for longer than 7 days, name the species.'
          : 'Late, and not like ordinary bacteria. Stain for acid-fast rods, culture tissue for longer than 7 days.',
        given.onsetDays,
        late,
      ),
    ]
    if (given.onsetDays > 30) {
      const says = 'It began later than 30 days: a follow-up that ends there misses it. Follow for 90 days at least.'
      findings.push({
        rule: 'port-onset-late',
        weight: 'note',
        says,
        measured: `day ${given.onsetDays}`,
        limit: '30 days',
        source: portOnset,
      })
    }
    const many = policy.limit(clusterCases)
    const isCluster = given.linkedCases + 1 >= many.value
    if (isCluster) {
      findings.push({
        rule: 'port-cluster',
        weight: 'stop',
        says: 'Several late infections share something. Sample rinse water, trays and outer sleeves, and trace what they share.',
        measured: `${given.linkedCases + 1} cases`,
        limit: `${many.value} in ${policy.limit(clusterDays).value} days`,
        source: rinseWaterOutbreak,
      })
    }
    if (given.chemical === 'glutaraldehyde') {
      findings.push({
        rule: 'port-glutaraldehyde',
        weight: 'stop',
        says: 'Stop glutaraldehyde: such mycobacteria survive it. Sterilise, or use ortho-phthalaldehyde or peracetic acid; sample water, trays and sleeves.',
        source: strainInGlutaraldehyde,
      })
      return { decision: 'switchMethod', findings }
    }
    return { decision: isCluster ? 'cluster' : 'suspectMycobacteria', findings }
  },
})

function onset(
  weight: Finding['weight'],
  says: string,
  days: number,
  limit: { readonly value: number; readonly source: Finding['source'] },
): Finding {
  return {
    rule: 'port-mycobacteria',
    weight,
    says,
    measured: `day ${days}`,
    limit: `from day ${limit.value}`,
    source: limit.source,
  }
}
