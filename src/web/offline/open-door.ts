import type { MeAnswer } from '#service/api-types.ts'
import { makeKeptStore } from '../session/store.ts'

/*
 * Without the network nobody can prove who they are. Whoever was signed in when it went goes on at this screen until the
 * time without doing anything has run out, or the session is over: by the clock of this screen.
 */

/** When somebody last did something at this browser. */
const activeStore = makeKeptStore<number>('nilgrowth.active', 0)
/** Somebody has left without network; the service is told when it answers. */
const leftStore = makeKeptStore<boolean>('nilgrowth.left', false)

const writtenEveryMillis = 5000

export function noteActivity(now: number): void {
  if (Math.abs(now - activeStore.get()) >= writtenEveryMillis) activeStore.set(now)
}

export function isStillOpen({ signIn, person, idleMinutes, sessionEndsAt }: MeAnswer, now: number): boolean {
  if (signIn === 'notAsked') return true
  if (person === null || leftStore.get()) return false
  const idle = now - activeStore.get()
  // A clock that was put back proves nothing.
  const isActive = idle > -60_000 && idle < idleMinutes * 60_000
  return isActive && (sessionEndsAt === null || now < Date.parse(sessionEndsAt))
}

export function closedFor(me: MeAnswer): MeAnswer {
  return me.signIn === 'notAsked' ? me : { ...me, person: null, hasPin: false, sessionEndsAt: null }
}

export function leaveWithoutNetwork(): void {
  leftStore.set(true)
}

export function hasLeft(): boolean {
  return leftStore.get()
}

export function leavingIsTold(): void {
  leftStore.set(false)
}
