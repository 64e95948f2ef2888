import type { Instant } from '../../instant.ts'
import { instant, millis } from '../../instant.ts'
import { figure } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import { biologicalIndicators } from '../biological-indicators.ts'
import { type IndicatorRead, neededHours, neededWarmth, type ReadingMisfit, readingMisfit } from '../incubation.ts'
import { methodOf } from '../method-of.ts'
import { indicatorMaker } from '../sources.ts'
import { wantedIncubation } from '../wanted-incubation.ts'

/** No growth is read only after long enough at the right warmth, by the lot of the indicator. */
export const biologicalIncubated = defineRule({
  id: 'biological-incubated',
  says: 'No growth counts only after the time, at the warmth and in the reader that the lot of the indicator asks for, or else its method.',
  on: ['biological-read'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    if (body.result === 'growth') return []
    const load = facts.known(body.load)
    const machine = load === undefined || load.machine === null ? undefined : facts.known(load.machine)
    const wanted = wantedIncubation(machine, facts.policy, (lot) => facts.known(lot))
    const lot = body.fromLot === undefined ? undefined : facts.known(body.fromLot)
    const indicator = biologicalIndicators[(machine === undefined ? undefined : methodOf(machine)) ?? 'steam']
    const byLot = (lot?.incubation ?? null) !== null
    const hours = neededHours(body, wanted)
    const warmth = neededWarmth(body, wanted)
    // A reading that is both early and cold is told of both.
    const misfits = new Set([
      readingMisfit(body, wanted),
      readingMisfit({ ...body, incubatedHours: Math.max(body.incubatedHours, hours) }, wanted),
    ])
    const again = byLot ? `${figure(hours)} h, by its lot` : `at least ${figure(hours)} h`
    const says: Readonly<Record<ReadingMisfit, Omit<Found, 'weight' | 'source'>>> = {
      tooEarly: {
        says: `Read early: this proves nothing. Put it back and read it again at ${readAgainAt(body, happenedAt, hours)}, when its time is over.${byLot ? '' : ' For a rapid indicator, take its lot into use with the incubation that its maker asks for.'}`,
        measured: `${figure(body.incubatedHours)} h`,
        limit: again,
      },
      otherThanLot: {
        says: 'The hours that were typed are not those of its lot, so it is not known what was read when. Read it again as its lot asks, or correct this reading.',
        measured: `${figure(body.makersHours ?? 0)} h typed`,
        limit: again,
      },
      wrongWarmth: {
        says: 'The incubator was not at its temperature: living spores may not have grown, so this is no pass. Check it and repeat the test.',
        measured: `${body.incubatorC ?? ''} °C`,
        limit: `${warmth.from} to ${warmth.to} °C`,
      },
      warmthUnknown: {
        says: 'Its lot asks for a temperature, and that of the incubator is not recorded. Correct this reading with it, or repeat the test.',
        limit: `${warmth.from} to ${warmth.to} °C`,
      },
      otherReader: {
        says: 'Its maker wants it read in one reader and no other. Read it there, or correct this reading with the reader that it was.',
        measured: body.reader ?? 'not recorded',
        limit: lot?.incubation?.reader ?? '',
      },
    }
    return [...misfits].flatMap((misfit): readonly Found[] => {
      if (misfit === undefined) return []
      const of = misfit === 'wrongWarmth' ? indicator.fromC : indicator.hours
      const source = byLot ? indicatorMaker : facts.policy.limit(of).source
      return [{ weight: 'notEvaluable', ...says[misfit], source }]
    })
  },
})

function readAgainAt({ incubatedHours }: IndicatorRead, at: Instant, hours: number): Instant {
  return instant(millis(at) + Math.max(0, hours - incubatedHours) * 3_600_000)
}
