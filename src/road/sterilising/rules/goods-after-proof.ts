import { machineName } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import type { Facts } from '../../facts.ts'
import type { Instant } from '../../instant.ts'
import { returnAirRemoval } from '../limits.ts'
import { loadTime } from '../load-fold.ts'
import type { MachineKnown } from '../machine-fold.ts'
import { provingLoadsFor, repairBefore } from '../major-repair.ts'
import { methodOf } from '../method-of.ts'
import { wasOutAt } from '../outages.ts'
import { goodTestsNeeded, rowOfProgram } from '../qualification-of.ts'
import { airRemovalAt } from '../read-in-force.ts'
import { releasedPacks } from '../released-packs.ts'
import { wantedIncubation } from '../wanted-incubation.ts'

/** After a major repair goods wait for the proof of their own cycle type. */
export const goodsAfterProof = defineRule({
  id: 'goods-after-proof',
  says: 'After a major repair no goods are run or released until their cycle type, and the removal of air, is proven again.',
  on: ['load-built', 'load-decided'],
  exceptionAllowed: false,
  check(facts, entry) {
    if (entry.kind === 'load-built') {
      const { machine, program, purpose } = entry.body
      return purpose === 'goods' ? lacking(facts, facts.known(machine), program, entry.happenedAt) : []
    }
    const load = facts.known(entry.body.load)
    if (load === undefined || load.machine === null || releasedPacks(facts, entry.body).length === 0) return []
    return lacking(facts, facts.known(load.machine), load.program, loadTime(load) ?? entry.happenedAt)
  },
})

/** What is not proven yet of a steriliser, for a load that ran at a moment; what ran before every repair is not touched. */
function lacking(
  facts: Facts,
  machine: MachineKnown | undefined,
  program: string | null,
  ranAt: Instant,
): readonly Found[] {
  if (machine === undefined || methodOf(machine) === undefined) return []
  const repair = repairBefore(machine, ranAt)
  if (repair === undefined) return []
  // What ran while it was out of service is another rule's; what ran before it was stopped still waits for its proof.
  if (wasOutAt(machine, ranAt)) return []
  const name = machineName(facts, machine.id)
  const found: Found[] = []
  const biological = goodTestsNeeded(facts.policy)
  const row = program === null ? undefined : proofOf(facts, machine, { program, ranAt, repair })
  if (row !== undefined && row < biological.value) {
    found.push({
      weight: 'stop',
      says: `${name} had a major repair, and ${program} is not proven since. Hold the goods; run ${biological.value} good biological tests in a row with ${program}, each with a control.`,
      measured: `${row} in a row`,
      limit: `${biological.value} in a row`,
      source: biological.source,
    })
  }
  const wanted = facts.policy.limit(returnAirRemoval)
  const { best: passed } = repair.airRemoval
  if (airRemovalAt(machine, ranAt) === 'dynamic' && passed < wanted.value) {
    found.push({
      weight: 'stop',
      says: `${name} had a major repair and has not passed enough air-removal tests since. Hold the goods and run the rest.`,
      measured: `${passed} in a row`,
      limit: `${wanted.value} in a row`,
      source: wanted.source,
    })
  }
  return found
}

interface ProofAsk {
  readonly program: string
  readonly ranAt: Instant
  readonly repair: { readonly at: Instant; readonly until: Instant | null }
}

/** The longest row of good tests of a program between a repair and the next: each of its cycle types waits for its own. */
function proofOf(facts: Facts, machine: MachineKnown, { program, ranAt, repair }: ProofAsk): number {
  const proving = provingLoadsFor(machine, program, ranAt).flatMap((load) => facts.known(load) ?? [])
  return rowOfProgram(program, proving, {
    from: repair.at,
    until: repair.until,
    needed: goodTestsNeeded(facts.policy).value,
    wanted: wantedIncubation(machine, facts.policy, (lot) => facts.known(lot)),
  }).best
}
