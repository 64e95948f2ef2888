import { defineRule, type Found } from '../../rule.ts'
import { isResultAwaited, type LoadKnown } from '../load-fold.ts'
import { releasedPacks } from '../released-packs.ts'
import { st79Release } from '../sources.ts'
import { wantedIncubation } from '../wanted-incubation.ts'
import { releaseImplantWaits } from './release-implant-waits.ts'

/** What an early release of an implant needs, since its exception sets the waiting aside. */
export const releaseEarlyImplant = defineRule({
  id: 'release-early-implant',
  says: 'An implant is released before its biological result only with the emergency written down, a challenge device with a biological and a passing type 5 indicator, and the word of the surgeon in charge or the manager.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body, exception }) {
    const load = facts.known(body.load)
    if (load === undefined) return []
    const machine = load.machine === null ? undefined : facts.known(load.machine)
    if (
      !isResultAwaited(
        load,
        wantedIncubation(machine, facts.policy, (lot) => facts.known(lot)),
      )
    )
      return []
    if (exception === undefined || !exception.rules.includes(releaseImplantWaits.id)) return []
    if (!releasedPacks(facts, body).some((pack) => pack.implant)) return []
    const roles = facts.known(exception.allowedBy)?.roles ?? []
    const entitled = roles.includes('surgeonInCharge') || roles.includes('manager')
    const missing = [
      ...(body.earlyImplant === undefined
        ? ['Write down the implant, the emergency, and what would have prevented it.']
        : []),
      ...(entitled ? [] : ['Only the surgeon in charge or the manager may allow this.']),
      ...missingProof(load),
    ]
    if (missing.length > 0) {
      return missing.map((says): Found => ({ weight: 'stop', says, source: st79Release }))
    }
    return [
      {
        weight: 'caution',
        says: 'Released early. Read the biological indicator when its time is over and add the result; if it grows, tell the surgeon and infection control.',
        source: st79Release,
      },
    ]
  },
})

function missingProof(load: LoadKnown): readonly string[] {
  const type5Passed = load.chemical.some(
    (read) => read.where === 'challengeDevice' && read.type === '5' && read.result === 'passed',
  )
  return [
    ...(load.challenge?.biologicalLot === undefined
      ? ['The load carried no biological indicator in a challenge device: this implant cannot be released early.']
      : []),
    ...(type5Passed ? [] : ['A type 5 indicator in the challenge device must have been read and have passed.']),
  ]
}
