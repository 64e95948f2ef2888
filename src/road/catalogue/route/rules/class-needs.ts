import { laparoscopes, contactClasses } from '../../sources.ts'
import { defineRouteRule, type RouteFound } from '../route-rule.ts'

/** The class of contact asks for a level of kill. */
export const classNeeds = defineRouteRule({
  id: 'class-needs',
  says: 'A critical device is sterilised; a semi-critical one is disinfected at high level at the least.',
  check({ device, ask, contact, facts }): readonly RouteFound[] {
    switch (contact) {
      case 'critical': {
        if (facts.kills === 'sterile')
          return [{ weight: 'note', says: 'Critical: it must be sterile.', source: contactClasses }]
        if (device.optic && ask.hldForLaparoscope) {
          return [
            {
              weight: 'caution',
              says: 'A deviation: this unit lets a laparoscope be disinfected at high level. Rinse with sterile water, dry with forced air, use at once.',
              source: laparoscopes,
            },
          ]
        }
        return [
          {
            weight: 'stop',
            says: 'Critical: it must be sterile, and this only disinfects.',
            source: device.optic ? laparoscopes : contactClasses,
          },
        ]
      }
      case 'semiCritical':
        return [
          {
            weight: 'note',
            says: 'Semi-critical: disinfection at high level at the least; sterile where it bears it.',
            source: contactClasses,
          },
        ]
      case 'nonCritical':
        return [
          {
            weight: 'note',
            says: 'Non-critical: cleaning and low-level disinfection are enough.',
            source: contactClasses,
          },
        ]
    }
  },
})
