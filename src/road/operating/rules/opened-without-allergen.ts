import { bathProduct } from '../../baths/products.ts'
import type { Facts } from '../../facts.ts'
import { packName } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import type { RoundKnown } from '../../round.ts'
import { devicesOf } from '../../set-content.ts'
import { methodOf } from '../../sterilising/method-of.ts'
import type { SubjectId } from '../../subject.ts'
import type { Allergen } from '../patient-facts.ts'
import { allergyKnown } from '../sources.ts'

/** A patient is not met with what they are allergic to: latex in a device, or the agent that treated the set. */
export const openedWithoutAllergen = defineRule({
  id: 'opened-without-allergen',
  says: 'A set is used on a patient only if it holds nothing, and was treated with nothing, that the patient is allergic to.',
  on: ['pack-opened'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const allergies = facts.known(body.case)?.patientFacts?.allergies ?? []
    const round = facts.known(body.round)
    if (round === undefined || allergies.length === 0) return []
    const latex = allergies.includes('latex') ? latexIn(facts, body.round) : []
    const agents = agentsOn(facts, round).filter((agent) => allergies.includes(agent))
    return [
      ...latex,
      ...agents.map((agent) => ({
        weight: 'stop' as const,
        says: `${packName(facts, body.round)} was treated with what the patient is allergic to (${agentNames[agent]}). Use another set.`,
        source: allergyKnown,
      })),
    ]
  },
})

const agentNames: Readonly<Record<Allergen, string>> = {
  latex: 'latex',
  glutaraldehyde: 'glutaraldehyde',
  orthoPhthalaldehyde: 'ortho-phthalaldehyde',
  peroxygen: 'hydrogen peroxide or peracetic acid',
  chlorine: 'chlorine',
  ethyleneOxide: 'ethylene oxide',
  formaldehyde: 'formaldehyde',
}

function latexIn(facts: Facts, round: SubjectId<'round'>): readonly Found[] {
  return devicesOf(facts, round).flatMap((device): readonly Found[] => {
    const name = `${packName(facts, round)}, ${device.name}`
    if (device.materials === undefined) {
      const says = `${name}: what it is made of is not registered, and the patient is allergic to latex. Look before use.`
      return [{ weight: 'notEvaluable', says, source: allergyKnown }]
    }
    if (!device.materials.includes('naturalRubber')) return []
    const says = `${name} holds natural rubber, and the patient is allergic to latex. Use another set.`
    return [{ weight: 'stop', says, source: allergyKnown }]
  })
}

/** What a set was last treated with, in a bath or a gas. */
function agentsOn(facts: Facts, round: RoundKnown): readonly Allergen[] {
  const immersion = round.immersion === null ? undefined : facts.known(round.immersion.id)
  const bath = immersion === undefined || immersion.bath === null ? undefined : facts.known(immersion.bath)
  const family = bath === undefined || bath.product === null ? undefined : bathProduct(bath.product)?.family
  const load = round.load === null ? undefined : facts.known(round.load.id)
  const machine = load === undefined || load.machine === null ? undefined : facts.known(load.machine)
  const method = machine === undefined ? undefined : methodOf(machine)
  const gas: readonly Allergen[] = method === 'ethyleneOxide' || method === 'formaldehyde' ? [method] : []
  const peroxide: readonly Allergen[] = method === 'hydrogenPeroxide' ? ['peroxygen'] : []
  return [...new Set<Allergen>([...(family === undefined ? [] : [family]), ...gas, ...peroxide])]
}
