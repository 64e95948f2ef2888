import { machineName } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import { methodOf } from '../../sterilising/method-of.ts'
import { cdcPositiveIndicator, nonSteamPositive } from '../../sterilising/sources.ts'
import type { Facts } from '../../facts.ts'
import type { RecallExtent } from '../recall-extent.ts'

/** A recall is closed only when the repeats are read. */
export const closedRepeatsRead = defineRule({
  id: 'closed-repeats-read',
  says: 'A recall is closed only when the repeat tests are read: as long as packs wait for them, and as long as the steriliser is still in use without them.',
  on: ['recall-closed'],
  exceptionAllowed: false,
  check(facts, { body, corrects }) {
    const extent = facts.extentOf(body.recall)
    if (extent === undefined) return []
    if (extent.verdict !== 'repeatsPending' || !extent.packs.some((pack) => pack.duty === 'hold'))
      return corrects === undefined ? machineUnproven(facts, extent) : []
    return [
      {
        weight: 'stop',
        says: 'Packs are still held for the repeat tests. Run and read the repeats, or record the defect that was found.',
        measured: `${extent.repeats.good} good`,
        limit: `${extent.repeats.needed} in a row`,
        source: cdcPositiveIndicator,
      },
    ]
  },
})

/**
 * Where no pack waits for repeats (by a method other than steam one failure recalls everything; a steam load may hold none),
 * the steriliser does. One that is out of service, or that went back since, comes back only when it is proven.
 */
function machineUnproven(
  facts: Facts,
  { machine: id, repeats, loads, failed, coveredBy }: RecallExtent,
): readonly Found[] {
  const machine = id === null ? undefined : facts.known(id)
  const method = machine === undefined ? undefined : methodOf(machine)
  if (id === null || machine === undefined || method === undefined) return []
  // A repeat that failed is held by the recall that it repeats: that one asks.
  if (coveredBy !== null || repeats.good >= repeats.needed) return []
  const { state, since } = machine.service
  const failedAt = loads.find((each) => each.load === failed)?.at
  if (state === 'withdrawn' || (since !== null && failedAt !== undefined && since > failedAt)) return []
  return [
    {
      weight: 'stop',
      says: `${machineName(facts, id)} is in service and not proven since the failure. Run and read the repeats, or take it out of service, before this recall is closed.`,
      measured: `${repeats.good} good`,
      limit: `${repeats.needed} in a row`,
      source: method === 'steam' ? cdcPositiveIndicator : nonSteamPositive,
    },
  ]
}
