import { singleUse as guidance } from '../../sources.ts'
import { defineRouteRule, found } from '../route-rule.ts'

/** What is sold for one use is not used twice, unless the law here and a licence allow it. */
export const singleUse = defineRouteRule({
  id: 'single-use',
  says: 'A device for one use is not reprocessed, unless a licensed route is on file.',
  check({ device }) {
    if (!device.singleUse) return []
    if (device.licensedRoute === undefined) {
      return found(true, {
        weight: 'stop',
        says: 'For one use only, and no licensed route is on file. Throw it away after use.',
        source: guidance,
      })
    }
    return found(true, {
      weight: 'caution',
      says: `For one use only; reprocessed under: ${device.licensedRoute}. The reprocessor stands in for the maker.`,
      source: guidance,
    })
  },
})
