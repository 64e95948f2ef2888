import { bladderCancer, methodTable, mycobacteria } from '../../sources.ts'
import { isBath } from '../../methods.ts'
import { defineRouteRule, type RouteFound } from '../route-rule.ts'

/** Not every bath suits every patient and every germ. */
export const agent = defineRouteRule({
  id: 'agent',
  says: 'Glutaraldehyde is not used against tolerant mycobacteria, nor ortho-phthalaldehyde for urology or after bladder cancer.',
  check({ device, ask, offer }): readonly RouteFound[] {
    if (!isBath(offer.method)) return []
    if (offer.agent === undefined) {
      return [{ weight: 'notEvaluable', says: 'What the bath is made of is not stated.', source: methodTable }]
    }
    if (offer.agent === 'glutaraldehyde') return glutaraldehyde(ask.mycobacteriaOutbreak === true)
    if (offer.agent === 'orthoPhthalaldehyde') {
      if (ask.bladderCancer === true || device.domain === 'urology') {
        return [
          {
            weight: 'stop',
            says: 'Ortho-phthalaldehyde is not used on urological instruments nor for a patient with bladder cancer.',
            source: bladderCancer,
          },
        ]
      }
      if (offer.method === 'bathSterilise') {
        return [
          {
            weight: 'stop',
            says: 'Ortho-phthalaldehyde disinfects; it has no claim to sterilise.',
            source: methodTable,
          },
        ]
      }
    }
    if (offer.agent === 'chlorine' && offer.method === 'bathSterilise') {
      return [{ weight: 'stop', says: 'Chlorine in a bath has no claim to sterilise.', source: methodTable }]
    }
    return []
  },
})

function glutaraldehyde(outbreak: boolean): readonly RouteFound[] {
  if (outbreak) {
    return [
      {
        weight: 'stop',
        says: 'Mycobacteria that bear glutaraldehyde were found. Use another agent, or sterilise.',
        source: mycobacteria,
      },
    ]
  }
  return [
    {
      weight: 'caution',
      says: 'Glutaraldehyde is slow against mycobacteria, and fixes blood: clean first, keep the full time.',
      source: mycobacteria,
    },
  ]
}
