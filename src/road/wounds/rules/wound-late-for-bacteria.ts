import { defineRule } from '../../rule.ts'
import { operatedOn } from '../follow-up/operated-on.ts'
import { lateOnsetDays } from '../limits.ts'
import { mycobacteriaSuspected } from '../port-infection.ts'
import { portOnset } from '../sources.ts'

const day = 86_400_000

/** A late wound without an ordinary germ makes one look for mycobacteria. */
export const woundLateForBacteria = defineRule({
  id: 'wound-late-for-bacteria',
  says: 'A wound that begins late, from which nothing ordinary grows or which holds acid-fast rods, is looked at for mycobacteria.',
  on: ['wound-noted', 'wound-cultured'],
  exceptionAllowed: false,
  check(facts, { kind, body }) {
    const wound = facts.known(body.wound)
    const of = kind === 'wound-noted' ? body.case : wound?.noted?.case
    const onsetAt = kind === 'wound-noted' ? body.onsetAt : wound?.noted?.onsetAt
    const operation = of === undefined ? undefined : facts.known(of)
    const operated = operation === undefined ? null : operatedOn(operation)
    if (operated === null || onsetAt === undefined) return []
    const onsetDays = Math.floor((Date.parse(onsetAt) - Date.parse(operated)) / day)
    const suspected = mycobacteriaSuspected(
      {
        onsetDays,
        acidFast: body.acidFast,
        mycobacteriaGrew: /mycobact/i.test(body.organism ?? ''),
        culture: body.culture,
        noResponse: false,
        nodulesOrSinus: false,
      },
      facts.policy,
    )
    if (suspected === 'no') return []
    return [
      {
        weight: 'caution',
        says:
          suspected === 'proven'
            ? 'Mycobacteria are shown. Look for others that share water, bath, set or theatre with this one; follow all for 90 days or more.'
            : 'Late, and nothing ordinary grew. Ask for an acid-fast stain and a culture of tissue for longer than 7 days.',
        measured: `day ${onsetDays}`,
        limit: `from day ${facts.policy.limit(lateOnsetDays).value}`,
        source: portOnset,
      },
    ]
  },
})
