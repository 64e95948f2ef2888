import { machineName } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import type { Facts } from '../../facts.ts'
import type { Instant } from '../../instant.ts'
import { returnAirRemoval } from '../limits.ts'
import { loadTime } from '../load-fold.ts'
import { type MachineKnown, provingLoadsOf } from '../machine-fold.ts'
import { qualificationOf } from '../qualification-of.ts'
import { releasedPacks } from '../released-packs.ts'

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

/** What is not proven yet of a steriliser, for a load that ran at a moment; what ran before the repair is not touched. */
function lacking(
  facts: Facts,
  machine: MachineKnown | undefined,
  program: string | null,
  ranAt: Instant,
): readonly Found[] {
  const repaired = machine?.majorRepairAt
  if (machine === undefined || repaired === undefined || ranAt < repaired) return []
  const { state, since } = machine.service
  // What ran while it was out of service is another rule's; what ran before it was stopped still waits for its proof.
  const out = state === 'withdrawn'
  if (out && (since === null || ranAt >= since)) return []
  // Back in service it had its air-removal tests, and good tests of one cycle type at least: each of the others waits for its own.
  const returned = !out && since !== null && since >= repaired
  const name = machineName(facts, machine.id)
  const found: Found[] = []
  const proving = provingLoadsOf(machine).flatMap((load) => facts.known(load) ?? [])
  const { policy, now } = facts
  const running: MachineKnown = out ? { ...machine, service: { ...machine.service, state: 'inService' } } : machine
  const qualification = qualificationOf(running, proving, { policy, now, lotOf: (lot) => facts.known(lot) })
  if (qualification === undefined) return []
  if (program !== null && qualification.programsOut.includes(program)) {
    found.push({
      weight: 'stop',
      says: `${name} had a major repair, and ${program} is not proven since. Hold the goods; run ${qualification.biological.needed} good biological tests in a row with ${program}, each with a control.`,
      source: qualification.source,
    })
  }
  const wanted = policy.limit(returnAirRemoval)
  const passed = bestRow(machine, repaired)
  if (!returned && machine.airRemoval === 'dynamic' && passed < wanted.value) {
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

/** The longest row of passed air-removal tests since a moment: a test that fails much later is another rule's. */
function bestRow({ airRemovalTests }: MachineKnown, from: Instant): number {
  let row = 0
  let best = 0
  for (const test of airRemovalTests) {
    if (test.at < from) continue
    row = test.result === 'passed' ? row + 1 : 0
    best = Math.max(best, row)
  }
  return best
}
