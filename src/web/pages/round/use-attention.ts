import { useQuery } from '@tanstack/react-query'
import type { KnownRow } from '#service/api-types.ts'
import { bathProduct } from '#road/baths/products.ts'
import { takenBackFromBath } from '#road/round.ts'
import { isPressing } from '#road/sterilising/due-tests.ts'
import type { MachineKnown } from '#road/sterilising/machine-fold.ts'
import { subjectKey } from '#road/subject.ts'
import { knownQuery, newestQuery } from '../../api/queries.ts'
import type { BeadMark } from '../../charts/Ring.tsx'
import type { Reason } from '../../components/Why.tsx'
import { useLimit } from '../../components/use-limit.ts'
import { useReadingsDue } from '../../components/use-readings-due.ts'
import { useRecalled } from '../../components/use-recalled.ts'
import { pathOf } from '../../paths.ts'
import { useNow } from '../../session/use-now.ts'
import { useTimes } from '../../session/unit.ts'
import { useNames } from '../../components/Named.tsx'
import { spanText, standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { dueMark, dueText } from '../../words/due.ts'
import { useMachineDays } from '../../components/use-due-tests.ts'

export interface Attention {
  readonly key: string
  readonly mark: BeadMark
  /** The greater, the worse. */
  readonly worse: number
  readonly name: string
  readonly says: string
  readonly to: string
  readonly why?: Reason
}

const soonDays = 3
const blocked = new Set(['quarantined', 'rejected', 'damaged', 'sentBack'])

/** What is late, blocked or expiring, worst first. */
export function useAttention(rounds: readonly KnownRow<'round'>[]): readonly Attention[] {
  const roundTrouble = useRoundTrouble()
  const setName = useNames('set')
  const { data: recalls = [] } = useQuery(knownQuery('recall', ['open']))
  const { data: machines = [] } = useQuery(knownQuery('machine', ['withdrawn']))
  const { data: working = [] } = useQuery(knownQuery('machine', ['inService']))
  const ofTests = useTestTrouble(working.map((row) => row.state))
  const ofBaths = useBathTrouble()
  const ofRecalls = recalls.map((row): Attention => ({
    key: row.subject,
    mark: 'blocked',
    worse: 1000,
    name: `${words.standings.kinds.recall} ${row.subject.slice(7)}`,
    says: words.round.recallOpen,
    to: pathOf(row.subject),
  }))
  const ofMachines = machines.map((row): Attention => ({
    key: row.subject,
    mark: 'blocked',
    worse: 900,
    name: row.state.name,
    says: words.round.machineOut(row.state.service.why),
    to: pathOf(row.subject),
  }))
  const ofRounds = rounds.flatMap((row) => {
    const trouble = roundTrouble(row)
    if (trouble === null) return []
    return [{ key: row.subject, name: setName(row.state.set), to: pathOf(row.subject), ...trouble }]
  })
  return [...ofRecalls, ...ofBaths, ...ofMachines, ...ofTests, ...useReadingTrouble(), ...ofRounds].toSorted(
    (a, b) => b.worse - a.worse,
  )
}

/** The biological indicators that wait to be read, or to be read again. */
function useReadingTrouble(): readonly Attention[] {
  const times = useTimes()
  const w = words.machines.indicators
  return useReadingsDue().map(({ load, at, again, isOver }): Attention => ({
    key: `reading ${load}`,
    mark: isOver ? 'late' : 'expiring',
    worse: isOver ? 420 : 250,
    name: `${words.standings.kinds.load} ${subjectKey(load)}`,
    says: `${w.biological}. ${(again ? w.readAgainAt : w.readAt)(times.moment(at))}`,
    to: pathOf(load),
  }))
}

const bathsLookedAt = 20

/** The baths that do not prove what was treated in them: also what was used, and also after the bath was discarded. */
function useBathTrouble(): readonly Attention[] {
  const { data: baths = [] } = useQuery(newestQuery('bath', bathsLookedAt))
  return baths.flatMap(({ subject, state, doubts = [] }): readonly Attention[] => {
    const [first] = doubts
    if (first === undefined) return []
    const agent = state.product === null ? undefined : bathProduct(state.product)?.agent
    const name = agent === undefined ? subjectKey(subject) : `${agent}, ${state.place}`
    const says = words.round.bathInDoubt(doubts.length, first.says)
    return [{ key: subject, mark: 'blocked', worse: 950, name, says, to: pathOf(subject) }]
  })
}

/** The tests that a steriliser in service needs now. */
function useTestTrouble(machines: readonly MachineKnown[]): readonly Attention[] {
  return useMachineDays(machines).flatMap(({ machine, tests }) =>
    tests.filter(isPressing).map((test): Attention => ({
      key: `${machine.id} ${test.test} ${test.lot ?? ''}`,
      mark: dueMark(test),
      worse: test.state === 'overdue' ? 700 : 400,
      name: machine.name,
      says: words.machines.due.attention(dueText(test), words.machines.due.states[test.state]),
      to: pathOf(machine.id),
    })),
  )
}

type Trouble = Pick<Attention, 'mark' | 'worse' | 'says' | 'why'>

/** What is wrong with a round, if anything is. */
export function useRoundTrouble(): (row: KnownRow<'round'>) => Trouble | null {
  const now = useNow()
  const times = useTimes()
  const recalled = useRecalled()
  const limit = useLimit('soak-caution-minutes')
  return (row) => {
    if (recalled.has(row.subject)) return { mark: 'blocked', worse: 800, says: words.round.recalled }
    const [doubt] = row.doubts ?? []
    if (doubt !== undefined) return { mark: 'blocked', worse: 790, says: words.round.inDoubt(doubt.says) }
    if (row.standing === 'used' && typeof limit?.value === 'number') {
      const wait = now - Date.parse(row.state.began?.at ?? row.since)
      if (wait <= limit.value * 60_000) return null
      const text = words.time.minutes(limit.value)
      const why = {
        title: words.round.lateWhy,
        value: spanText(wait),
        limit: text,
        source: limit.source,
        entry: row.state.began?.entry,
      }
      return {
        mark: 'late',
        worse: 600 + Math.min(99, wait / 3_600_000),
        says: words.round.late(spanText(wait), text),
        why,
      }
    }
    if (takenBackFromBath(row.state)) return { mark: 'blocked', worse: 500, says: words.round.takenBackFromBath.says }
    if (blocked.has(row.standing)) return { mark: 'blocked', worse: 500, says: standingText('round', row.standing) }
    const useBefore = row.state.sealed?.useBefore
    if (useBefore === undefined || !['onShelf', 'released'].includes(row.standing)) return null
    const left = Date.parse(useBefore) - now
    if (left < 0) return { mark: 'blocked', worse: 450, says: words.round.expired(times.day(useBefore)) }
    if (left < soonDays * 86_400_000)
      return { mark: 'expiring', worse: 300, says: words.round.expiring(times.day(useBefore)) }
    return null
  }
}
