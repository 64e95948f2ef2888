import { queryOptions, useQuery } from '@tanstack/react-query'
import type { KindName } from '#road/kinds.ts'
import { mayRecord } from '#road/people/rights.ts'
import type { MeAnswer } from '#service/api-types.ts'
import { ask } from '../api/client.ts'

export const meQuery = queryOptions({
  queryKey: ['me'],
  queryFn: () => ask<MeAnswer>('/api/me'),
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

/** Whether the person at this screen looks after who may sign in. */
export function useMayManage(): boolean {
  const me = useMe()
  return me?.signIn === 'required' && me.person?.roles.includes('manager') === true
}
