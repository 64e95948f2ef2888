import type { Bodies } from '#road/kinds.ts'
import { type Hospital, minutes } from './hospital.ts'
import { instantOf, today } from './hospital-clock.ts'
import { infectionControl, manager } from './people.ts'

const investigation: Bodies['investigation-opened']['investigation'] = 'investigation:late-nodules'

/** It was opened on this day, and is under way. */
const openedDay = today - 8
const sampledDay = today - 7
const readDay = today - 1

const head = { by: infectionControl, room: 'Ward office' } as const

/** The second story as the unit sees it so far: late wounds that have something in common, and samples of its water. */
export function investigate(hospital: Hospital, workingDay: number): void {
  if (workingDay === openedDay) open(hospital)
  if (workingDay === sampledDay) takeSamples(hospital)
  if (workingDay === readDay) readSamples(hospital)
}

function open(hospital: Hospital): void {
  const at = hospital.clock.at(openedDay, 780)
  const wounds = hospital.lateWounds.filter(({ notedAt }) => notedAt < at).map(({ wound }) => wound)
  hospital.write({
    ...head,
    at,
    kind: 'investigation-opened',
    body: {
      investigation,
      because: 'cluster',
      wounds,
      why: 'Nodules at the ports of several patients weeks after the operation, acid-fast rods in the tissue of some.',
      lead: infectionControl,
    },
  })
  mark(hospital, at + 40 * minutes, 'confirmCases', 'done', 'Each seen again; tissue asked for where none was taken.')
  mark(
    hospital,
    at + 60 * minutes,
    'confirmRise',
    'done',
    'None such in the year before. Most lie outside the window of the chart.',
  )
}

type Marked = Bodies['investigation-step-marked']

function mark(hospital: Hospital, at: number, step: Marked['step'], state: Marked['state'], note: string): void {
  const due = state === 'underWay' ? { due: instantOf(hospital.clock.at(today + 2, 720)).slice(0, 10) } : {}
  const body = { investigation, step, state, owner: infectionControl, note, ...due } as const
  hospital.write({ ...head, at, kind: 'investigation-step-marked', body })
}

type Sampled = Omit<Bodies['sample-taken'], 'investigation' | 'lookingFor'>

const samples: readonly Sampled[] = [
  { sample: 'sample:1', from: 'outlet:final-rinse', place: 'water', where: 'Final rinse, first water of the morning' },
  { sample: 'sample:2', from: 'outlet:store-sink', place: 'aerator', where: 'Tap of the sink in Store 2, aerator' },
  { sample: 'sample:3', from: 'bath:glut-032', place: 'bathFluid', where: 'Glutaraldehyde, tray 2' },
  { sample: 'sample:4', place: 'surface', where: 'Boards of the stores, swabbed damp' },
]

function takeSamples(hospital: Hospital): void {
  const at = hospital.clock.at(sampledDay, 560)
  for (const [index, sampled] of samples.entries()) {
    hospital.write({
      ...head,
      at: at + index * 12 * minutes,
      kind: 'sample-taken',
      body: { ...sampled, lookingFor: 'mycobacteria', investigation },
    })
  }
  hospital.write({
    ...head,
    at: at + 60 * minutes,
    kind: 'action-taken',
    body: { investigation, says: 'Water, a tray and the boards of the stores sampled for mycobacteria.' },
  })
  mark(
    hospital,
    at + 70 * minutes,
    'describe',
    'done',
    'Time and theatre tell nothing; procedures and surgeons differ.',
  )
  mark(hospital, at + 75 * minutes, 'lineList', 'underWay', 'What each of them had in common is being compared.')
}

/** The sample of the boards is not read yet. */
function readSamples(hospital: Hospital): void {
  const at = hospital.clock.at(readDay, 600)
  const said = (after: number) => ({ ...head, at: at + after * minutes })
  const clean = { culture: 'noGrowth', acidFast: 'negative', sameAsWounds: 'notCompared' } as const
  hospital.write({ ...said(0), kind: 'sample-read', body: { sample: 'sample:1', ...clean } })
  hospital.write({
    ...said(3),
    kind: 'sample-read',
    body: {
      sample: 'sample:2',
      culture: 'growth',
      acidFast: 'positive',
      organism: 'Mycobacterium chelonae',
      sameAsWounds: 'same',
    },
  })
  hospital.write({ ...said(6), kind: 'sample-read', body: { sample: 'sample:3', ...clean } })
  stateHypotheses(hospital, at + 20 * minutes)
  mark(hospital, at + 40 * minutes, 'cause', 'underWay', 'Who had packs that stood near water?')
  hospital.write({
    ...said(50),
    by: manager,
    room: 'Unit office',
    kind: 'action-taken',
    body: { investigation, says: 'The tap in Store 2 is closed.', on: 'outlet:store-sink' },
  })
}

type Stated = Omit<Bodies['hypothesis-stated'], 'investigation'>
type Tested = Omit<Bodies['hypothesis-tested'], 'investigation' | 'hypothesis'>

/** The last one waits for its test: who had packs that stood there is still being asked. */
const hypotheses: readonly { readonly stated: Stated; readonly tested: Tested | null }[] = [
  {
    stated: { says: 'A bath or its rinse carried it.', suspect: 'outlet:final-rinse', standing: 'weakened' },
    tested: { result: 'notSupported', why: 'Tray 2 and the final rinse were sampled: neither grew anything.' },
  },
  {
    stated: {
      says: 'Water from the sink in Store 2: the same organism lives in its tap. No instrument is rinsed there; how it came to them is open.',
      suspect: 'outlet:store-sink',
      standing: 'supported',
    },
    tested: {
      result: 'supported',
      why: 'The aerator of its tap was sampled: it grew the organism that the wounds grew.',
    },
  },
  {
    stated: {
      says: 'Packs that stood near that sink got wet there.',
      suspect: 'outlet:store-sink',
      standing: 'tested',
    },
    tested: null,
  },
]

function stateHypotheses(hospital: Hospital, from: number): void {
  for (const [index, { stated, tested }] of hypotheses.entries()) {
    const said = { ...head, at: from + index * 5 * minutes }
    const name = `hypothesis:${index + 1}`
    hospital.write({ ...said, name, kind: 'hypothesis-stated', body: { investigation, ...stated } })
    if (tested === null) continue
    const at = said.at + 2 * minutes
    hospital.write({ ...said, at, tests: name, kind: 'hypothesis-tested', body: { investigation, ...tested } })
  }
}
