import type { BiologicalTask } from './biological-task.ts'
import { type Hospital, celsius, minutes } from './hospital.ts'
import { storePacks } from './loads.ts'
import { steriliserB } from './machines.ts'
import { type Shift, shiftOf } from './people.ts'
import { failedIndicatorDay } from './story-days.ts'

/** Whether this is the indicator of the first story. */
export function isFailedIndicator(task: Pick<BiologicalTask, 'load' | 'ranOn'>): boolean {
  return task.ranOn === failedIndicatorDay && task.load.startsWith(`load:${steriliserB.key}-`)
}

/** Reads the indicators of the days before, each beside its control; implants go to the shelf when theirs did not grow. */
export function readBiologicals(hospital: Hospital, workingDay: number): void {
  const shift = shiftOf(workingDay)
  const due = hospital.biologicals.filter((task) => task.ranOn < workingDay)
  hospital.biologicals = hospital.biologicals.filter((task) => task.ranOn >= workingDay)
  for (const task of due) {
    // A day after its load, at about the same time of day, and not before.
    const sameTime = task.endedAt + hospital.clock.daysBetween(task.ranOn, workingDay) * 24 * 60 * minutes
    readOne(hospital, task, sameTime + (isFailedIndicator(task) ? 55 : 18) * minutes, shift)
  }
}

function readOne(hospital: Hospital, task: BiologicalTask, at: number, shift: Shift): void {
  const head = { by: shift.machines, room: 'Steriliser room' } as const
  hospital.write({
    ...head,
    at,
    kind: 'biological-read',
    body: {
      load: task.load,
      lot: task.lot,
      result: isFailedIndicator(task) ? 'growth' : 'noGrowth',
      control: { lot: task.lot, result: 'growth' },
      incubatedHours: Math.round((at - task.endedAt) / (6 * minutes)) / 10,
      incubatorC: celsius(57),
    },
  })
  if (task.implants.length === 0) return
  hospital.write({
    ...head,
    at: at + 6 * minutes,
    kind: 'load-decided',
    body: {
      load: task.load,
      packs: task.implants.flatMap(({ state }) =>
        state.round === null
          ? []
          : { round: state.round, outcome: 'released' as const, why: 'No growth, control grew.' },
      ),
    },
  })
  storePacks(hospital, task.implants, at + 12 * minutes, shift)
}
