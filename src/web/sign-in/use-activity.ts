import { type QueryClient, useQueryClient } from '@tanstack/react-query'
import { useEffect } from 'react'
import type { MeAnswer } from '#service/api-types.ts'
import { isUnheard, post } from '../api/client.ts'
import { closeDoor } from '../offline/kept-answers.ts'
import { isStillOpen, noteActivity } from '../offline/open-door.ts'
import { meQuery } from './me.ts'

const toldEveryMillis = 30_000
/** By the clock and not by a timer: a tablet that slept has not counted. */
const lookEveryMillis = 5000

/**
 * Tells the service that somebody is doing something at this screen: what pages ask for by themselves does not count. When
 * nothing is done for the time allowed, asks who is signed in, and so finds the door closed; without network it closes here.
 */
export function useActivity(me: MeAnswer): void {
  const client = useQueryClient()
  const isIn = me.signIn === 'required' && me.person !== null
  useEffect(() => {
    if (!isIn) return
    let told = Date.now()
    // Whoever has just signed in has done something; a page that was only loaded again has not.
    if (!isStillOpen(me, told)) noteActivity(told)
    const onDo = () => {
      const now = Date.now()
      // A touch on a screen that was left too long opens nothing any more.
      if (!isStillOpen(me, now)) return
      noteActivity(now)
      if (now - told < toldEveryMillis) return
      told = now
      // Whether it was heard shows with the next thing that is asked.
      post('/api/me/active', {}).catch(() => {})
    }
    const timer = setInterval(() => {
      if (!isStillOpen(me, Date.now())) void lookWho(client)
    }, lookEveryMillis)
    const events = ['pointerdown', 'keydown', 'touchstart'] as const
    for (const event of events) addEventListener(event, onDo, { passive: true, capture: true })
    return () => {
      clearInterval(timer)
      for (const event of events) removeEventListener(event, onDo, { capture: true })
    }
  }, [client, isIn, me])
}

async function lookWho(client: QueryClient): Promise<void> {
  try {
    await client.fetchQuery({ ...meQuery, staleTime: 0, retry: false })
  } catch (error) {
    if (isUnheard(error)) await closeDoor(client)
  }
}
