import { useQueryClient } from '@tanstack/react-query'
import { useEffect } from 'react'
import type { MeAnswer } from '#service/api-types.ts'
import { post } from '../api/client.ts'
import { meQuery } from './me.ts'

const toldEveryMillis = 30_000

/**
 * Tells the service that somebody is doing something at this screen: what pages ask for by themselves does not count. When
 * nothing is done for the time allowed, asks who is signed in, and so finds the door closed.
 */
export function useActivity({ signIn, person, idleMinutes }: MeAnswer): void {
  const client = useQueryClient()
  const isIn = signIn === 'required' && person !== null
  useEffect(() => {
    if (!isIn) return
    let told = Date.now()
    let idle = 0
    const look = () => void client.invalidateQueries({ queryKey: meQuery.queryKey })
    const wait = () => {
      clearTimeout(idle)
      idle = window.setTimeout(look, idleMinutes * 60_000 + 1000)
    }
    const onDo = () => {
      wait()
      if (Date.now() - told < toldEveryMillis) return
      told = Date.now()
      // Whether it was heard shows with the next thing that is asked.
      post('/api/me/active', {}).catch(() => {})
    }
    wait()
    const events = ['pointerdown', 'keydown', 'touchstart'] as const
    for (const event of events) addEventListener(event, onDo, { passive: true, capture: true })
    return () => {
      clearTimeout(idle)
      for (const event of events) removeEventListener(event, onDo, { capture: true })
    }
  }, [client, isIn, idleMinutes])
}
