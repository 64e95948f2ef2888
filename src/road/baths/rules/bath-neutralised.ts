import { defineRule } from '../../rule.ts'
import { bathProduct } from '../products.ts'
import { labelDecides } from '../sources.ts'

/** Ortho-phthalaldehyde is neutralised before it is poured away or wiped up. */
export const bathNeutralised = defineRule({
  id: 'bath-neutralised',
  says: 'Ortho-phthalaldehyde is neutralised, with glycine for instance, before it is poured away or wiped up.',
  on: ['bath-retired', 'spill-recorded'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const product = facts.known(body.bath)?.product ?? null
    const needs = product !== null && bathProduct(product)?.family === 'orthoPhthalaldehyde'
    if (!needs || body.neutraliser.trim() !== '') return []
    const says = 'No neutraliser is recorded. Neutralise with glycine, and follow the rules for waste where you are.'
    return [{ weight: 'caution', says, source: labelDecides }]
  },
})
