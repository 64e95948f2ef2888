import { queryOptions, useQuery } from '@tanstack/react-query'
import { useEffect } from 'react'
import type { Role } from '#road/people/entries.ts'
import type { KindName } from '#road/kinds.ts'
import { auditsAccess, mayRecord } from '#road/people/rights.ts'
import type { MeAnswer } from '#service/api-types.ts'
import { ask, post } from '../api/client.ts'
import { hasLeft, leavingIsTold } from '../offline/open-door.ts'

export const meQuery = queryOptions({
  queryKey: ['me'],
  async queryFn() {
    // Whoever left while the service did not answer is signed out before anybody is let in.
    if (hasLeft()) {
      await post<unknown>('/api/sign-out', {})
      leavingIsTold()
    }
    return await ask<MeAnswer>('/api/me')
  },
})

export function useMe(): MeAnswer | undefined {
  return useQuery(meQuery).data
}

/** Whether whoever is signed in may record this; where no sign-in is asked for, everybody may. */
export function useMayRecord(kind: KindName): boolean {
  const me = useMe()
  if (me === undefined || me.signIn === 'notAsked') return true
  return me.person !== null && mayRecord(me.person.roles, kind)
}

/** Whether the person at this screen has one of these roles; where no sign-in is asked for, everybody has. */
export function useMayHave(roles: readonly Role[]): boolean {
  const me = useMe()
  if (me === undefined || me.signIn === 'notAsked') return true
  return me.person?.roles.some((role) => roles.includes(role)) === true
}

/**
 * Forgets what only the person who was in may see. A page stays as it was behind the closed door; this does not. What is
 * handed in is one and the same function each time.
 */
export function useForgottenAtTheDoor(forget: () => void): void {
  const isIn = useMe()?.person !== null
  useEffect(() => {
    if (!isIn) forget()
  }, [isIn, forget])
}

/** Whether the person at this screen looks after who may sign in. */
export function useMayManage(): boolean {
  const me = useMe()
  return me?.signIn === 'required' && me.person?.roles.includes('manager') === true
}

/** Whether the person at this screen sees what happened at the door. */
export function useMayAudit(): boolean {
  const me = useMe()
  return me?.signIn === 'required' && me.person?.roles.some((role) => auditsAccess.includes(role)) === true
}
