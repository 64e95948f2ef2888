import { useQueries } from '@tanstack/react-query'
import { instant } from '#road/instant.ts'
import { dayIn } from '#road/local-day.ts'
import { type DueTest, dueTests } from '#road/sterilising/due-tests.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import type { MachineKnown } from '#road/sterilising/machine-fold.ts'
import { provingLoadsOf } from '#road/sterilising/major-repair.ts'
import { methodOf } from '#road/sterilising/method-of.ts'
import { type Qualification, qualificationOf } from '#road/sterilising/qualification-of.ts'
import { loadsOfQuery, subjectQuery } from '../api/queries.ts'
import { useUnit } from '../session/unit.ts'
import { useNow } from '../session/use-now.ts'
import { usePolicy } from './use-policy.ts'
import { useLotOf } from './use-wanted-incubation.ts'

export interface MachineDay {
  readonly machine: MachineKnown
  readonly tests: readonly DueTest[]
}

/** The tests of today of each steriliser that is in service, once its loads are known. */
export function useMachineDays(machines: readonly MachineKnown[]): readonly MachineDay[] {
  const now = instant(useNow(60))
  const policy = usePolicy()
  const { timeZone } = useUnit().unit
  const sterilisers = machines.filter(
    (machine) => methodOf(machine) !== undefined && machine.service.state === 'inService',
  )
  const lotOf = useLotOf()
  const answers = useQueries({ queries: sterilisers.map((machine) => loadsOfQuery(machine.id)) })
  return sterilisers.flatMap((machine, index) => {
    const loads = answers[index]?.data
    if (loads === undefined || lotOf === undefined) return []
    const states = loads.map((row) => row.state)
    return [{ machine, tests: dueTests(machine, states, { now, policy, lotOf, dayOf: (at) => dayIn(timeZone, at) }) }]
  })
}

/** Whether a machine is proven, once the loads that were run to prove it are known. */
export function useQualification(machine: MachineKnown): Qualification | undefined {
  const now = instant(useNow(60))
  const policy = usePolicy()
  const lotOf = useLotOf()
  const answers = useQueries({ queries: provingLoadsOf(machine).map((load) => subjectQuery(load)) })
  const loads = answers.flatMap((answer): LoadKnown[] => (answer.data === undefined ? [] : [answer.data.state]))
  return loads.length < answers.length || lotOf === undefined
    ? undefined
    : qualificationOf(machine, loads, { policy, now, lotOf })
}
