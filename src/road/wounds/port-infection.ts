import type { Policy } from '../policy.ts'
import { lateOnsetDays } from './limits.ts'

export interface PortWound {
  readonly onsetDays: number
  readonly acidFast: 'notDone' | 'pending' | 'negative' | 'positive'
  readonly mycobacteriaGrew: boolean
  readonly culture: 'notTaken' | 'pending' | 'noGrowth' | 'growth'
  readonly noResponse: boolean
  readonly nodulesOrSinus: boolean
}

/**
 * Whether a wound at a port may be mycobacterial: proven by stain or culture, or late and with a clue that ordinary
 * bacteria do not give. An early acute infection is not, unless it is proven.
 */
export function mycobacteriaSuspected(wound: PortWound, policy: Policy): 'proven' | 'suspected' | 'no' {
  if (wound.mycobacteriaGrew || wound.acidFast === 'positive') return 'proven'
  const late = wound.onsetDays >= policy.limit(lateOnsetDays).value
  const clue = wound.noResponse || wound.nodulesOrSinus || wound.culture === 'noGrowth'
  return late && clue ? 'suspected' : 'no'
}
