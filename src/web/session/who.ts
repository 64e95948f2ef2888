import type { SubjectId } from '#road/subject.ts'
import { makeKeptStore } from './store.ts'

/** Who is working at this screen. Chosen by name; sign-in is another matter. */
export const whoStore = makeKeptStore<SubjectId<'person'> | null>('nilgrowth.who', null)

/** What this screen is called in the record. */
export const workstationStore = makeKeptStore<string>('nilgrowth.workstation', 'Screen 1')
