import { keepBaths } from './bath-days.ts'
import { runGas } from './gas-days.ts'
import { sampleWater } from './water-days.ts'
import { failAndRepair } from './air-removal-story.ts'
import { readBiologicals } from './biologicals.ts'
import { type Hospital, minutes } from './hospital.ts'
import { takeLoan } from './loan-days.ts'
import { careForMachines } from './machine-care.ts'
import { runPeroxide } from './peroxide-days.ts'
import { testMachines } from './morning-tests.ts'
import { shiftOf } from './people.ts'
import { restartRound } from './send-back.ts'
import { runLoads, withdrawAfterFailure } from './sterilising-day.ts'
import { runLists } from './theatre.ts'
import { investigate } from './investigation.ts'
import { watchWounds } from './watch-wounds.ts'
import { washBatch, washTimes } from './wash-room.ts'

/** Minutes from the end of a wash to the first load of its packs. */
const fromWashToLoad = 118

/** One working day, room by room. What it writes stands in any order; the caller sorts it by time. */
export function liveDay(hospital: Hospital, workingDay: number): void {
  hospital.freeAt.a = hospital.clock.at(workingDay, 420)
  hospital.freeAt.b = hospital.clock.at(workingDay, 420)
  testMachines(hospital, workingDay)
  failAndRepair(hospital, workingDay)
  if (workingDay === 0) takeNewSets(hospital)
  readBiologicals(hospital, workingDay)
  runLists(hospital, workingDay)
  for (const [batch, startMinute] of washTimes.entries()) {
    washBatch(hospital, workingDay, startMinute)
    runLoads(hospital, workingDay, batch, startMinute + fromWashToLoad)
  }
  withdrawAfterFailure(hospital, workingDay)
  runGas(hospital, workingDay)
  keepBaths(hospital, workingDay)
  sampleWater(hospital, workingDay)
  runPeroxide(hospital, workingDay)
  careForMachines(hospital, workingDay)
  takeLoan(hospital, workingDay)
  watchWounds(hospital, workingDay)
  investigate(hospital, workingDay)
}

/** New sets go round once before their first case. */
function takeNewSets(hospital: Hospital): void {
  for (const [index, state] of hospital.stock.sets.entries()) {
    restartRound(hospital, state, hospital.clock.at(0, 470) + index * 3 * minutes, 'newSet', shiftOf(0))
  }
}
