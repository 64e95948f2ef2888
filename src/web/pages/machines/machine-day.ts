import type { MachineKnown } from '#road/sterilising/machine-fold.ts'
import { useLimit } from '../../components/use-limit.ts'
import { useTimes } from '../../session/unit.ts'
import { useNow } from '../../session/use-now.ts'

export type MachineNeed = 'out' | 'leak' | 'air' | 'none'

/** What a steriliser needs before it may be loaded today. */
export function useMachineNeed(): (machine: MachineKnown) => MachineNeed {
  const now = useNow(60)
  const times = useTimes()
  const every = useLimit('leak-test-every-days')?.value
  const today = times.day(new Date(now).toISOString())
  return (machine) => {
    if (machine.service.state === 'withdrawn') return 'out'
    if (machine.type !== 'steamSteriliser' || machine.airRemoval !== 'dynamic') return 'none'
    const leakAt = machine.leakTest?.at
    const days = typeof every === 'number' ? every : 7
    if (leakAt === undefined || now - Date.parse(leakAt) > days * 86_400_000) return 'leak'
    const airAt = machine.airRemovalTest?.at
    return airAt === undefined || times.day(airAt) !== today ? 'air' : 'none'
  }
}
