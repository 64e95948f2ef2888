import { machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { calibrationProposal } from '../sources.ts'

/** A machine runs goods only while it is known to measure rightly. */
export const machineWithinCalibration = defineRule({
  id: 'machine-within-calibration',
  says: 'A machine found out of tolerance is taken out of service; one whose calibration or service is overdue is said aloud.',
  on: ['machine-calibrated', 'load-built'],
  exceptionAllowed: false,
  check(facts, entry) {
    const id = entry.body.machine
    const machine = facts.known(id)
    if (machine === undefined) return []
    const name = machineName(facts, id)
    if (entry.kind === 'machine-calibrated') {
      if (entry.body.found === 'withinTolerance') return []
      const good = machine.lastGoodCalibration
      const since = good === null ? 'its last qualification' : `its last good calibration, ${good}`
      return [
        {
          weight: 'stop',
          says: `${name} was found out of tolerance (${entry.body.what}). Take it out of service, and recall its loads since ${since}.`,
          source: calibrationProposal,
        },
      ]
    }
    if (machine.calibration?.found === 'outOfTolerance' && machine.service.state === 'inService') {
      const says = `${name} was out of tolerance when it was last calibrated. Have it adjusted and calibrated again before any goods.`
      return [{ weight: 'stop', says, source: calibrationProposal }]
    }
    const overdue = [machine.calibration?.nextDueAt, machine.serviced?.nextDueAt].filter(
      (due) => due !== undefined && due < entry.happenedAt,
    )
    return overdue.slice(0, 1).map((due) => ({
      weight: 'caution' as const,
      says: `${name} is overdue for its calibration or service.`,
      measured: entry.happenedAt,
      limit: due ?? '',
      source: calibrationProposal,
    }))
  },
})
