import { listed } from '../catalogue/route/rules/makers-list.ts'
import { type Method, methodFacts } from '../catalogue/methods.ts'
import { makersWord } from '../catalogue/sources.ts'
import type { DeviceKnown } from '../catalogue/fold.ts'
import { cyclesAgainstMaker } from '../catalogue/cycles-against-maker.ts'
import type { Facts } from '../facts.ts'
import { packName } from '../naming.ts'
import type { Found } from '../rule.ts'
import { devicesOf } from '../set-content.ts'
import type { SubjectId } from '../subject.ts'
import type { BathClaim, BathHow, BathProductId } from './products.ts'

interface Asked {
  readonly claim: BathClaim
  readonly how: BathHow
  readonly product: BathProductId | null
}

/** What stands against putting the devices of these sets into a bath: a method that their makers do not list. */
export function devicesAgainstBath(
  facts: Facts,
  asked: Asked,
  rounds: readonly SubjectId<'round'>[],
): readonly Found[] {
  const methods = methodsOf(asked)
  const names = methods.map((method) => methodFacts[method].name).join(' or ')
  return rounds.flatMap((round) =>
    devicesOf(facts, round).flatMap((device): Found[] => {
      const answers = methods.map((method) => listed(device, method))
      const who = `${packName(facts, round)}, ${device.name}`
      if (answers.includes('listed')) {
        return usedUp(facts, round, { device, methods }).map((found) => ({ ...found, says: `${who}: ${found.says}` }))
      }
      if (answers.includes('noInstructions')) {
        const says = `${who}: no instructions for use on file that speak of this: ${names}. Get them from the maker.`
        return [{ weight: 'notEvaluable', says, source: makersWord }]
      }
      const says = `${who}: the list of its maker does not have this: ${names}. Treat it by a method that is listed.`
      return [{ weight: 'stop', says, source: makersWord }]
    }),
  )
}

/** A machine that works with peracetic acid is a method of its own on a maker's list; a tray by hand is never one. */
function methodsOf({ claim, how, product }: Asked): readonly Method[] {
  const bath: Method = claim === 'sterilise' ? 'bathSterilise' : 'bathDisinfect'
  const machine = how === 'reprocessor' && product !== null && product.startsWith('peracetic')
  return machine ? [bath, 'peraceticLiquid'] : [bath]
}

/** One listed way that still has cycles left is enough. */
function usedUp(
  facts: Facts,
  round: SubjectId<'round'>,
  { device, methods }: { readonly device: DeviceKnown; readonly methods: readonly Method[] },
): readonly Found[] {
  const ways = methods
    .filter((method) => listed(device, method) === 'listed')
    .map((method) => cyclesAgainstMaker(facts, round, { device, method }))
  return ways.some((found) => found.length === 0) ? [] : (ways[0] ?? [])
}
