import { IdentityReason } from '#road/people/identity.ts'
import { words } from '../words/words.ts'

/** Why somebody may ask who a patient is, to choose from. */
export const identityReasons = IdentityReason.options.map((value) => ({ value, label: words.identity.reasons[value] }))
