import { devicesOf } from '../../set-content.ts'
import { packName } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import type { DeviceKnown } from '../../catalogue/fold.ts'
import { methods } from '../../catalogue/methods.ts'
import { listed } from '../../catalogue/route/rules/makers-list.ts'
import { makersInstructions } from '../limits.ts'

/** Every device in the pack bears steam by its maker's instructions, or all of them share another listed method. */
export const packedForSteam = defineRule({
  id: 'packed-for-steam',
  says: 'A pack holds only devices whose makers allow steam, or another method that all of them share; without instructions on file it is not evaluable.',
  on: ['pack-sealed'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const counted = body.counted.filter((line) => line.count > 0).flatMap((line) => facts.known(line.device) ?? [])
    const devices = new Map([...devicesOf(facts, body.round), ...counted].map((device) => [device.id, device]))
    const name = packName(facts, body.round)
    const all = [...devices.values()]
    const shared = methods.some((method) => all.every((device) => listed(device, method) === 'listed'))
    return shared ? [] : all.flatMap((device) => againstSteam(device, name))
  },
})

function againstSteam(device: DeviceKnown, pack: string): readonly Found[] {
  switch (listed(device, 'steam')) {
    case 'listed':
      return []
    case 'notListed':
      return [
        {
          weight: 'stop',
          says: `${pack}: the maker of ${device.name} does not allow steam. Take it out and send it by another method.`,
          source: makersInstructions,
        },
      ]
    case 'noInstructions':
      return [
        {
          weight: 'notEvaluable',
          says: `${pack}: no instructions for use on file for ${device.name}. Get them from the maker and register what they allow.`,
          source: makersInstructions,
        },
      ]
  }
}
