import { channelsOf, fitsClaim } from '../../catalogue/route/fits-claim.ts'
import type { LumenClaim } from '../../catalogue/route/claims.ts'
import { packName } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import { devicesOf } from '../../set-content.ts'
import { methodOf } from '../../sterilising/method-of.ts'
import { peroxideClaims } from '../sources.ts'

/** Lumens and mass of a peroxide load keep a claim of its steriliser. */
export const loadWithinClaims = defineRule({
  id: 'load-within-claims',
  says: 'Every lumen in a load for hydrogen peroxide fits one claim of the steriliser as a pair of diameter and length, and the load keeps the lumens and the mass of that claim; a load without lumens keeps the mass too.',
  on: ['load-built'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const machine = facts.known(body.machine)
    if (machine === undefined || methodOf(machine) !== 'hydrogenPeroxide') return []
    const inLoad = body.rounds.flatMap((round) => devicesOf(facts, round).map((device) => ({ round, device })))
    const lumens = inLoad.reduce((sum, { device }) => sum + channelsOf(device.lumens), 0)
    const masses = body.rounds.map((round) => facts.known(round)?.sealed?.massKg)
    // In whole grams: what scales show adds up to no more than it is.
    const massKg = masses.every((mass) => mass !== undefined)
      ? masses.reduce((sum, mass) => sum + Math.round(mass * 1000), 0) / 1000
      : null
    const ofLumens = inLoad
      .filter(({ device }) => device.lumens.length > 0)
      .flatMap(({ round, device }): Found[] => {
        const name = `${device.name} in ${packName(facts, round)}`
        const claims = machine.lumenClaims ?? []
        if (claims.length === 0) {
          const says = `${name} has a lumen, and no lumen claim of this steriliser is on file. Register its claims, or take another method.`
          return [{ weight: 'notEvaluable', says, source: peroxideClaims }]
        }
        // Beside its own: a load may hold as many lumens as its claim says, each counted once.
        const around = { lumens: lumens - channelsOf(device.lumens), massKg, otherDevices: inLoad.length > 1 }
        const fits = claims.map((claim) => fitsClaim(device.lumens, claim, around))
        if (fits.some((fit) => fit.kind === 'fits')) return []
        const unknown = fits.find((fit) => fit.kind === 'notStated')
        if (unknown?.kind === 'notStated') {
          return [{ weight: 'notEvaluable', says: `${name}: ${unknown.what} is not on file.`, source: peroxideClaims }]
        }
        const because = fits
          .map((fit, place) => `${claims[place]?.id ?? ''}: ${fit.kind === 'doesNotFit' ? fit.because : ''}`)
          .join('; ')
        return [
          {
            weight: 'stop',
            says: `${name} fits no claim of this steriliser. Take it out and send it by another method.`,
            measured: because,
            source: peroxideClaims,
          },
        ]
      })
    // A test load without packs weighs nothing that a claim is about.
    if (body.rounds.length === 0) return ofLumens
    return [...ofLumens, ...massFound(machine.lumenClaims ?? [], massKg, ofLumens.length > 0)]
  },
})

/**
 * The mass of a load against the claims of its steriliser. Claims name no programme, so a load may weigh what the largest of
 * them says; a claim that says nothing of mass allows no more. Only some public claims say a mass: where none on file does,
 * nothing says how heavy a load may be, and that is no pass.
 */
function massFound(claims: readonly LumenClaim[], massKg: number | null, isTold: boolean): readonly Found[] {
  const most = Math.max(...claims.flatMap((claim) => claim.maxLoadKg ?? []))
  if (most === Number.NEGATIVE_INFINITY) {
    const says =
      'No claim of this steriliser on file says how heavy a load may be: the mass is not judged. Look it up in its papers and register it with a claim.'
    const measured = massKg === null ? {} : { measured: `${massKg} kg` }
    // That no claim is on file at all is told with the lumen already.
    if (isTold && claims.length === 0) return []
    return [{ weight: 'notEvaluable', says, ...measured, source: peroxideClaims }]
  }
  if (massKg === null) {
    const says = 'The mass of a pack in this load is not on file. Weigh each pack and seal it with its mass.'
    return isTold ? [] : [{ weight: 'notEvaluable', says, limit: `${most} kg`, source: peroxideClaims }]
  }
  if (massKg <= most) return []
  const says = 'This load is heavier than any claim of this steriliser allows. Take packs out.'
  return [{ weight: 'stop', says, measured: `${massKg} kg`, limit: `${most} kg`, source: peroxideClaims }]
}
