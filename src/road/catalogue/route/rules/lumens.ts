import { figure } from '#road/naming.ts'
import { hollowLoads, lumenClaims, methodTable, noTrade } from '../../sources.ts'
import { fitsClaim, type ClaimFit } from '../fits-claim.ts'
import { type Crossing, defineRouteRule, type RouteFound } from '../route-rule.ts'

/** Each method has its own way into a lumen. */
export const lumens = defineRouteRule({
  id: 'lumens',
  says: 'A lumen goes only where the agent is shown to reach: for peroxide by one claim that fits whole, for steam by air removal.',
  check(crossing) {
    const { device, offer } = crossing
    if (device.lumens.length === 0) return []
    switch (offer.method) {
      case 'hydrogenPeroxide':
        return byClaim(crossing)
      case 'steam':
        return bySteam(crossing)
      case 'dryHeat':
        return [{ weight: 'stop', says: 'Hot air does not reach through a lumen.', source: methodTable }]
      case 'ethyleneOxide':
        return []
      case 'formaldehyde':
        return [
          { weight: 'caution', says: 'Lumens only as far as the maker of the steriliser claims.', source: methodTable },
        ]
      case 'peraceticLiquid':
        return [
          { weight: 'caution', says: 'Connect each lumen, so that the liquid flows through it.', source: methodTable },
        ]
      case 'bathSterilise':
      case 'bathDisinfect':
        return [{ weight: 'caution', says: 'Fill each lumen until no bubble comes out.', source: methodTable }]
    }
  },
})

function byClaim({ device, ask, offer }: Crossing): readonly RouteFound[] {
  const { claims } = offer
  if (claims === undefined) {
    return [
      {
        weight: 'notEvaluable',
        says: 'The lumen claims of the steriliser are not on file. Enter them from its papers.',
        source: lumenClaims,
      },
    ]
  }
  const { load } = ask
  const around = {
    lumens: load?.lumens ?? 0,
    massKg: load?.massKg ?? device.massKg ?? null,
    otherDevices: load?.otherDevices ?? false,
  }
  const fits = claims.map((claim) => ({ claim, fit: fitsClaim(device.lumens, claim, around) }))
  const own = fits.find(({ fit }) => fit.kind === 'fits')
  const measured = device.lumens.map((lumen) => `${lumen.diameterMm} mm × ${lumen.lengthMm} mm`).join(', ')
  if (own !== undefined) {
    return [{ weight: 'note', says: `Its lumens fit claim ${own.claim.id}.`, measured, source: lumenClaims }]
  }
  const open = fits.find(({ fit }) => fit.kind === 'notStated')
  if (open !== undefined) {
    return [
      {
        weight: 'notEvaluable',
        says: `Claim ${open.claim.id} might fit: ${says(open.fit)}.`,
        measured,
        source: lumenClaims,
      },
    ]
  }
  const reasons = fits.map(({ claim, fit }) => `${claim.id}: ${says(fit)}`).join('; ')
  return [
    {
      weight: 'stop',
      says: `No claim of the steriliser fits${reasons === '' ? '' : ` (${reasons})`}. A wider lumen does not make up for a longer one.`,
      measured,
      source: noTrade,
    },
  ]
}

function says(fit: ClaimFit): string {
  switch (fit.kind) {
    case 'fits':
      return 'fits'
    case 'doesNotFit':
      return fit.because
    case 'notStated':
      return `not stated: ${fit.what}`
  }
}

const longestRatio = { 1: 750, 2: 1500 } as const
const longestMm = { 1: 1500, 2: 3000 } as const

function bySteam({ device, offer }: Crossing): readonly RouteFound[] {
  if (offer.airRemoval === 'gravity') {
    return [
      { weight: 'stop', says: 'Air stays in a lumen where nothing but gravity draws it out.', source: hollowLoads },
    ]
  }
  return device.lumens.flatMap((lumen): readonly RouteFound[] => {
    const ends = lumen.openEnds ?? 1
    const ratio = lumen.lengthMm / lumen.diameterMm
    if (ratio <= longestRatio[ends] && lumen.lengthMm <= longestMm[ends]) return []
    return [
      {
        weight: lumen.openEnds === undefined ? 'notEvaluable' : 'stop',
        says: 'The lumen is longer for its width than steam is shown to reach.',
        measured: `${figure(ratio, 0)} times its width`,
        limit: `${longestRatio[ends]} times, ${longestMm[ends]} mm`,
        source: hollowLoads,
      },
    ]
  })
}
