import { rinsedWithGoodWater } from '../../cleaning/rules/rinsed-with-good-water.ts'
import type { Facts } from '../../facts.ts'
import type { TypedSent } from '../../kinds.ts'
import { packName } from '../../naming.ts'
import type { AnyRule, Found } from '../../rule.ts'
import { defineRule } from '../../rule.ts'
import { type SubjectId, subjectKey } from '../../subject.ts'
import { isFromBath } from '../from-bath.ts'
import { immersionDoubts, policyThen, unspokenFor } from '../immersion-doubts.ts'
import { bathProposal } from '../sources.ts'
import { immersedEverywhere } from './immersed-everywhere.ts'
import { immersedLongEnough } from './immersed-long-enough.ts'
import { immersedWithoutImplant } from './immersed-without-implant.ts'
import { rinseWaterFit } from './rinse-water-fit.ts'
import { rinsedEnough } from './rinsed-enough.ts'

/** What else an immersion was found ready for, once its bath is set aside. */
const proofs: readonly AnyRule[] = [
  immersedEverywhere,
  immersedWithoutImplant,
  immersedLongEnough,
  rinseWaterFit,
  rinsedEnough,
  rinsedWithGoodWater,
]

/** What was ready from a bath rests on its strip, its bath and its rinses: a correction or a late entry may take them away. */
export const treatedStillProven = defineRule({
  id: 'treated-still-proven',
  says: 'What came from a bath is found ready and goes to a patient only while its strip, its bath and its rinses prove it.',
  on: ['pack-opened', 'immersion-decided'],
  exceptionAllowed: false,
  check(facts, entry) {
    if (entry.kind === 'immersion-decided') {
      const bath = facts.known(entry.body.immersion)?.bath ?? null
      if (entry.body.outcome !== 'readyForUse' || bath === null) return []
      return unspokenFor(facts, facts.known(bath), entry.body.immersion)
    }
    const round = facts.known(entry.body.round)
    if (round === undefined || round.immersion === null || !isFromBath(round)) return []
    const { id, decided } = round.immersion
    if (decided?.outcome === 'treatAgain') return []
    const lost = [...immersionDoubts(facts, id), ...(decided === null ? [] : lostProofs(facts, entry, id))]
    const reasons = [...new Set(lost.map(({ says }) => says))]
    if (reasons.length === 0) return []
    const bath = facts.known(id)?.bath ?? null
    const recall = bath === null ? '' : ` and open the recall of bath ${subjectKey(bath)}`
    return [
      {
        weight: 'stop',
        says: `${packName(facts, round.id)}: its bath does not prove it ready as things stand. Do not use it; treat it again. If it was used, tell the surgeon and infection control${recall}. ${reasons.join(' ')}`,
        source: lost[0]?.source ?? bathProposal,
      },
    ]
  },
})

/** The findings that the decision to use it would meet now, by the limits of that time. */
function lostProofs(facts: Facts, entry: TypedSent, immersion: SubjectId<'immersion'>): readonly Found[] {
  const known = facts.known(immersion)
  const decision = known?.decision ?? null
  if (known === undefined || decision === null) return []
  const { outcome, urological, bladderCancer } = decision
  const again: TypedSent = {
    ...entry,
    kind: 'immersion-decided',
    happenedAt: decision.at,
    body: { immersion, rounds: [...known.rounds], outcome, urological, bladderCancer },
  }
  const then = { ...facts, policy: policyThen(facts, known.started?.at ?? decision.at) }
  return proofs
    .flatMap((rule) => rule.check(then, again))
    .filter((finding) => finding.weight === 'stop' || finding.weight === 'notEvaluable')
}
