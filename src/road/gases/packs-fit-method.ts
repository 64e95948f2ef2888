import type { Facts } from '../facts.ts'
import { packName } from '../naming.ts'
import type { Found } from '../rule.ts'
import { methodOf } from '../sterilising/method-of.ts'
import type { SubjectId } from '../subject.ts'
import { peroxidePacks } from './sources.ts'

/** Whether the wraps of these packs let the gas of this machine work. Not stated is not a yes. */
export function packsAgainstMethod(
  facts: Facts,
  machineId: SubjectId<'machine'> | null,
  rounds: readonly SubjectId<'round'>[],
): readonly Found[] {
  const machine = machineId === null ? undefined : facts.known(machineId)
  const method = machine === undefined ? undefined : methodOf(machine)
  if (method !== 'hydrogenPeroxide' && method !== 'dryHeat') return []
  return rounds.flatMap((id): Found[] => {
    const material = facts.known(id)?.sealed?.material
    const name = packName(facts, id)
    if (material === 'cellulose' || material === 'linen') {
      const why = method === 'dryHeat' ? 'chars in dry heat' : 'soaks up the peroxide'
      const says = `${name}: its wrap is ${material === 'linen' ? 'linen' : 'paper or another cellulose'}, which ${why}. Pack it in what the maker of the steriliser lists.`
      return [{ weight: 'stop', says, measured: material, source: peroxidePacks }]
    }
    if (method === 'dryHeat') return []
    if (material !== undefined) return []
    const says = `${name}: what its wrap is made of is not recorded. Peroxide needs a wrap without cellulose or linen.`
    return [{ weight: 'notEvaluable', says, source: peroxidePacks }]
  })
}
