import { defineRule } from '../../rule.ts'
import { setOf } from '../../set-content.ts'
import { insulationFaulty } from '../item-fold.ts'
import { makersWord } from '../sources.ts'

/** What was retired, or whose insulation failed last, does not come back by way of its set. */
export const itemFitForUse = defineRule({
  id: 'item-fit-for-use',
  says: 'An item that is retired, out for repair, or failed its last insulation test is not packed.',
  on: ['pack-sealed'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const items = (setOf(facts, body.round)?.items ?? []).flatMap((id) => facts.known(id) ?? [])
    return items.flatMap((item) => {
      const device = item.device === null ? undefined : facts.known(item.device)
      const name = [device?.name ?? item.id, item.serial ?? ''].join(' ').trim()
      const stop = { weight: 'stop' as const, source: makersWord }
      if (item.retired !== null) return [{ ...stop, says: `${name} is retired. Take it out of the set.` }]
      if (item.out !== null) return [{ ...stop, says: `${name} is out for repair. Record it as back, or take it out.` }]
      if (insulationFaulty(item)) {
        return [
          {
            ...stop,
            says: `The insulation of ${name} failed its last test. Repair it and test it again, or retire it.`,
          },
        ]
      }
      return []
    })
  },
})
