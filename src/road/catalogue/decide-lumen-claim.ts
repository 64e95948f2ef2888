import { z } from 'zod'
import { defineTopic } from '../deciding/topic.ts'
import type { Finding } from '../finding.ts'
import { Lumen } from './attributes.ts'
import { LumenClaim, publicClaims } from './route/claims.ts'
import { fitsClaim } from './route/fits-claim.ts'
import { lumenClaims, noTrade } from './sources.ts'

const names = publicClaims.map((claim) => claim.id)

export const lumenClaimTopic = defineTopic({
  topic: 'lumen-claim',
  title: 'Whether the lumens of a device fit a claim of a hydrogen peroxide steriliser',
  decisions: {
    fits: 'One claim fits all of it, as a pair of diameter and length.',
    doesNotFit: 'No claim fits all of it.',
    hold: 'A claim might fit, but something about the lumen or the load is not stated.',
  },
  given: z.strictObject({
    lumens: z.array(Lumen).min(1),
    /** Claims by the letter of the public list, or written out. */
    claims: z.array(z.union([z.enum(names), LumenClaim])).min(1),
    /** Lumens of other devices in the load, their mass, and whether there are any. */
    load: z
      .strictObject({
        lumens: z.int().nonnegative().default(0),
        massKg: z.number().positive().optional(),
        otherDevices: z.boolean().default(false),
      })
      .default({ lumens: 0, otherDevices: false }),
  }),
  sources: [lumenClaims, noTrade],
  example: {
    given: {
      lumens: [{ material: 'stainlessSteel', diameterMm: 1, lengthMm: 200, openEnds: 2 }],
      claims: ['L1', 'L2'],
    },
    decision: 'doesNotFit',
  },
  decide({ lumens, claims, load }) {
    const around = { lumens: load.lumens, massKg: load.massKg ?? null, otherDevices: load.otherDevices }
    const asked = claims.flatMap((claim) =>
      typeof claim === 'string' ? publicClaims.filter((each) => each.id === claim) : [claim],
    )
    const fits = asked.map((claim) => ({ claim, fit: fitsClaim(lumens, claim, around) }))
    const findings = fits.map(({ claim, fit }): Finding => {
      const reason = { rule: 'lumens', source: fit.kind === 'doesNotFit' ? noTrade : lumenClaims }
      switch (fit.kind) {
        case 'fits':
          return { ...reason, weight: 'note', says: `${claim.id} fits.` }
        case 'doesNotFit':
          return { ...reason, weight: 'stop', says: `${claim.id} does not fit: ${fit.because}.` }
        case 'notStated':
          return { ...reason, weight: 'notEvaluable', says: `${claim.id} might fit; not stated: ${fit.what}.` }
      }
    })
    const one = (kind: 'fits' | 'notStated') => fits.some(({ fit }) => fit.kind === kind)
    const decision = one('fits') ? 'fits' : one('notStated') ? 'hold' : 'doesNotFit'
    return { decision, findings: decision === 'fits' ? findings.filter((each) => each.weight === 'note') : findings }
  },
})
