import type { SubjectId } from '#road/subject.ts'
import { makeStore } from './store.ts'

export interface Alarm {
  readonly seq: number
  readonly says: string
  readonly subjects: readonly SubjectId[]
}

/** What has sounded and was not acknowledged at this screen yet. */
export const alarmStore = makeStore<readonly Alarm[]>([])

export function raiseAlarm(alarm: Alarm): void {
  if (alarmStore.get().some((each) => each.seq === alarm.seq)) return
  alarmStore.set([...alarmStore.get(), alarm])
}

export function acknowledgeAlarm(seq: number): void {
  alarmStore.set(alarmStore.get().filter((each) => each.seq !== seq))
}
