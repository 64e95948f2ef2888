import type { Facts } from '../facts.ts'
import { packName } from '../naming.ts'
import type { Found } from '../rule.ts'
import { devicesOf, setOf } from '../set-content.ts'
import { methodOf } from '../sterilising/method-of.ts'
import type { SubjectId } from '../subject.ts'
import { cyclesDoneBy } from './uses-of-item.ts'
import type { DeviceKnown } from './fold.ts'
import { methodFacts } from './methods.ts'
import type { Crossing } from './route/route-rule.ts'
import { contents } from './route/rules/contents.ts'
import { heat } from './route/rules/heat.ts'
import { makersLimits } from './route/rules/makers-limits.ts'
import { makersList } from './route/rules/makers-list.ts'
import { moisture } from './route/rules/moisture.ts'
import { vacuum } from './route/rules/vacuum.ts'

type DeviceCrossing = Crossing & { readonly device: DeviceKnown }

/** The rules of the route that a machine's method alone decides; lumens and wraps have rules of their own. */
const asked = [makersList, heat, moisture, vacuum, contents]

/** What stands against putting the devices of these packs into this machine. */
export function devicesAgainstMachine(
  facts: Facts,
  machineId: SubjectId<'machine'> | null,
  rounds: readonly SubjectId<'round'>[],
): readonly Found[] {
  const machine = machineId === null ? undefined : facts.known(machineId)
  const method = machine === undefined ? undefined : methodOf(machine)
  if (machine === undefined || method === undefined) return []
  const { airRemoval } = machine
  const offer = { method, owned: true, ...(method === 'steam' && airRemoval !== 'none' ? { airRemoval } : {}) }
  const ask = { toStore: true, hldForLaparoscope: false, offers: [offer] }
  return rounds.flatMap((round) =>
    devicesOf(facts, round).flatMap((device) => {
      const crossing = { device, ask, offer, facts: methodFacts[method], contact: device.contact }
      return [...asked.flatMap((rule) => rule.check(crossing)), ...cyclesAgainst(facts, round, crossing)]
        .filter((found) => found.weight === 'stop' || found.weight === 'notEvaluable')
        .map((found) => ({ ...found, says: `${packName(facts, round)}, ${device.name}: ${found.says}` }))
    }),
  )
}

/** Only the count of cycles of the maker's limits: the programme has rules of its own. */
function cyclesAgainst(facts: Facts, round: SubjectId<'round'>, crossing: DeviceCrossing): readonly Found[] {
  const { device, ask } = crossing
  const makerMethods = device.makerMethods?.map(({ method, maxCycles }) => ({ method, maxCycles }))
  const set = setOf(facts, round)
  const items = (set?.items ?? []).map((item) => facts.known(item))
  const cyclesDone = set === undefined ? undefined : cyclesDoneBy(set, device.id, items)
  if (makerMethods === undefined || cyclesDone === undefined) return []
  return makersLimits.check({ ...crossing, device: { ...device, makerMethods }, ask: { ...ask, cyclesDone } })
}
