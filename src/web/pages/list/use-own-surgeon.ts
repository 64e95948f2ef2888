import type { PlanOfDay } from '#service/api-types.ts'
import { subjectKey } from '#road/subject.ts'
import { useStore } from '../../session/use-store.ts'
import { whoStore } from '../../session/who.ts'

/** Who is working, when it is a surgeon with a case on this day: their own list comes first. */
export function useOwnSurgeon({ instance }: PlanOfDay): string | null {
  const who = useStore(whoStore)
  const key = who === null ? null : subjectKey(who)
  return instance?.cases.some(({ surgeon }) => surgeon === key) === true ? key : null
}
