import type { Bodies } from '#road/kinds.ts'
import type { Hospital } from './hospital.ts'
import { infectionControl } from './people.ts'
import { chartRestartDay, chartSetDay, washerOutDays } from './story-days.ts'

export const chart: Bodies['chart-set']['chart'] = 'chart:all-operations'

const washerOut = [...washerOutDays]
const changes = [
  [washerOut[0], 460, 'The washer is away for repair: sets are washed by hand.'],
  [(washerOut.at(-1) ?? 0) + 1, 440, 'The washer is back; nothing is washed by hand any more.'],
  [chartRestartDay - 1, 900, 'Hand washing taught anew: lumens brushed twice and looked through with a lens.'],
] as const

/** The chart of all operations, from the end of the first month; what changed; and its restart after the rise. */
export function watchWounds(hospital: Hospital, workingDay: number): void {
  const said = (minute: number) =>
    ({ at: hospital.clock.at(workingDay, minute), by: infectionControl, room: 'Ward office' }) as const
  if (workingDay === chartSetDay) {
    hospital.write({
      ...said(600),
      kind: 'chart-set',
      body: {
        chart,
        name: 'All operations',
        procedures: [],
        usualRate: 0.012,
        raisedRate: 0.036,
        falseAlarmYears: 3,
        operationsPerYear: 1200,
        headStart: false,
        riskAdjusted: false,
        why: 'About 1 in 80 was usual before this record began; three times as many is to be seen soon.',
      },
    })
  }
  for (const [day, minute, says] of changes) {
    if (day === workingDay) hospital.write({ ...said(minute), kind: 'change-noted', body: { chart, says } })
  }
  if (workingDay === chartRestartDay) {
    hospital.write({
      ...said(640),
      kind: 'chart-restarted',
      body: {
        chart,
        why: 'The alarm was looked into: the infected had sets that were washed by hand. That is over and hand washing is taught anew.',
      },
    })
  }
}
