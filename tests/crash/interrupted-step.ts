import { openJournal } from '#journal/open-journal.ts'
import type { Place } from '#journal/place.ts'
import { steps } from '#journal/migrations/steps.ts'
import { minutes } from '../support/entries.ts'
import { secondStep, shelfStep } from '../support/test-steps.ts'
import { toyRoad } from '../support/toy-road.ts'

/* Opens a store with a step in which the process is killed: after its statements, before its end. Run with the PLACE. */

const [place = '{}'] = process.argv.slice(2)
const killed = { ...secondStep, work: async () => void process.kill(process.pid, 'SIGKILL') }
await openJournal({
  at: JSON.parse(place) as Place,
  road: toyRoad(),
  now: () => minutes(60),
  opening: { steps: [...steps, shelfStep, killed] },
})
