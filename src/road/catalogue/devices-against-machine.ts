import type { Facts } from '../facts.ts'
import type { Instant } from '../instant.ts'
import { packName } from '../naming.ts'
import type { Found } from '../rule.ts'
import { devicesOf } from '../set-content.ts'
import { methodOf } from '../sterilising/method-of.ts'
import { airRemovalAt } from '../sterilising/read-in-force.ts'
import type { SubjectId } from '../subject.ts'
import { cyclesAgainstMaker } from './cycles-against-maker.ts'
import { methodFacts } from './methods.ts'
import { contents } from './route/rules/contents.ts'
import { heat } from './route/rules/heat.ts'
import { makersList } from './route/rules/makers-list.ts'
import { moisture } from './route/rules/moisture.ts'
import { vacuum } from './route/rules/vacuum.ts'

/** The rules of the route that a machine's method alone decides; lumens and wraps have rules of their own. */
const asked = [makersList, heat, moisture, vacuum, contents]

/** What stands against putting the devices of these packs into this machine, as it was at a moment. */
export function devicesAgainstMachine(
  facts: Facts,
  machineId: SubjectId<'machine'> | null,
  { rounds, at }: { readonly rounds: readonly SubjectId<'round'>[]; readonly at: Instant },
): readonly Found[] {
  const machine = machineId === null ? undefined : facts.known(machineId)
  const method = machine === undefined ? undefined : methodOf(machine)
  if (machine === undefined || method === undefined) return []
  const airRemoval = airRemovalAt(machine, at)
  const offer = { method, owned: true, ...(method === 'steam' && airRemoval !== 'none' ? { airRemoval } : {}) }
  const ask = { toStore: true, hldForLaparoscope: false, offers: [offer] }
  return rounds.flatMap((round) =>
    devicesOf(facts, round).flatMap((device) => {
      const crossing = { device, ask, offer, facts: methodFacts[method], contact: device.contact }
      return [...asked.flatMap((rule) => rule.check(crossing)), ...cyclesAgainstMaker(facts, round, { device, method })]
        .filter((found) => found.weight === 'stop' || found.weight === 'notEvaluable')
        .map((found) => ({ ...found, says: `${packName(facts, round)}, ${device.name}: ${found.says}` }))
    }),
  )
}
