import type { Source } from '#units/source.ts'
import { formaldehydeTablets } from '../sources.ts'
import { unofferedFacts } from '../unoffered-methods.ts'

/** What people ask for and this program does not offer, with why. */
export const notOffered: readonly { readonly what: string; readonly why: string; readonly source: Source }[] =
  Object.freeze([
    {
      what: 'Keeping instruments in a cupboard with formaldehyde tablets',
      why: 'Nothing in it is measured: not the strength of the vapour, nor humidity, temperature or time, and no indicator proves the result. It does not reach into lumens, it harms those who open it, and a device that lay in it is neither sterile nor disinfected. Sterilise by a listed method and keep the device in its pack.',
      source: formaldehydeTablets,
    },
    ...Object.values(unofferedFacts).map(({ name, why, source }) => ({ what: name, why, source })),
  ])
