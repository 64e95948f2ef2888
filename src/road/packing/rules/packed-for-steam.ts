import { devicesOf } from '../../set-content.ts'
import { packName } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import type { DeviceKnown } from '../../catalogue/fold.ts'
import { makersInstructions } from '../limits.ts'

/** Every device in the pack bears steam by its maker's instructions. */
export const packedForSteam = defineRule({
  id: 'packed-for-steam',
  says: 'A pack for steam holds only devices whose makers allow steam; without instructions on file it is not evaluable.',
  on: ['pack-sealed'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const counted = body.counted.filter((line) => line.count > 0).flatMap((line) => facts.known(line.device) ?? [])
    const devices = new Map([...devicesOf(facts, body.round), ...counted].map((device) => [device.id, device]))
    const name = packName(facts, body.round)
    return [...devices.values()].flatMap((device) => againstSteam(device, name))
  },
})

function againstSteam(device: DeviceKnown, pack: string): readonly Found[] {
  switch (device.steam) {
    case 'allowed':
      return []
    case 'barred':
      return [
        {
          weight: 'stop',
          says: `${pack}: the maker of ${device.name} does not allow steam. Take it out and send it by another method.`,
          source: makersInstructions,
        },
      ]
    case 'noInstructionsOnFile':
      return [
        {
          weight: 'notEvaluable',
          says: `${pack}: no instructions for use on file for ${device.name}. Get them from the maker and register what they allow.`,
          source: makersInstructions,
        },
      ]
  }
}
