import { findWorking } from '#workings/registry.ts'
import { rankExposures } from '#workings/statistics/exposure-ranking/rank-exposures.ts'
import { readCycles } from '../cycles/read-cycles.ts'
import { readList } from '../list-import/read-list.ts'
import { planWork } from '../planning/plan-work.ts'
import { simulateWork } from '../planning/simulate-work.ts'
import type { Task, TaskAnswer } from './task.ts'

/** Does one piece of work. The same function in a worker thread, on the command line and in a test. */
export function runTask(task: Task): TaskAnswer {
  switch (task.kind) {
    case 'readCycles': {
      const read = readCycles(task)
      return 'problems' in read ? { kind: 'unusable', problems: read.problems } : { kind: 'cycles', answer: read }
    }
    case 'rankExposures':
      return { kind: 'ranking', ranking: rankExposures(task.input) }
    case 'explainPlan':
      return { kind: 'explained', work: planWork(task.about) }
    case 'simulatePlan':
      return { kind: 'simulated', work: simulateWork(task.about) }
    case 'readList':
      return { kind: 'list', list: readList(task.about) }
    case 'work': {
      const result = findWorking(task.working)?.run(task.input)
      if (result !== undefined) return result
      return { kind: 'unusable', problems: [{ field: 'working', wanted: 'a known working', current: task.working }] }
    }
  }
}
