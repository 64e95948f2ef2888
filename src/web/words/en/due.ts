import type { CareDue } from '#road/sterilising/care-due.ts'
import type { DueState, DueTest } from '#road/sterilising/due-tests.ts'
import type { Qualification } from '#road/sterilising/qualification-of.ts'

const tests: Record<DueTest['test'], string> = {
  airRemoval: 'Air-removal test',
  leak: 'Leak test',
  biological: 'Biological indicator',
  control: 'Control of the indicator',
}

const states: Record<DueState, string> = {
  done: 'done',
  due: 'due today',
  overdue: 'overdue',
  waits: 'run, not read yet',
  eachLoad: 'in every load',
}

const meanings: Record<DueState, string> = {
  done: 'Nothing is asked until it is due again.',
  due: 'To be done today, before the first load where it proves the load.',
  overdue: 'Its time is over, or the last one failed. Do it before any load.',
  waits: 'The indicator is in the incubator. Read it when its time is over.',
  eachLoad: 'Each load carries one, and waits for it where the policy says so.',
}

const qualified: Record<Qualification['state'], string> = {
  never: 'not on record',
  qualified: 'proven',
  needsProof: 'needs to be proven',
}

const becauses: Record<Qualification['because'], string> = {
  notOnRecord: 'No row of good results from tests is on this record.',
  proven: 'Good results in a row, each beside a control that grew.',
  majorRepair: 'It had a major repair since it was last proven.',
  outOfService: 'It is out of service.',
}

export const dueWords = {
  testForms: 'Leak and air-removal tests',
  due: {
    tests,
    states,
    meanings,
    noneFound: 'none found',
    lastAt: (at: string) => `last ${at}`,
    by: (at: string) => `due by ${at}`,
    ofLot: (lot: string) => `lot ${lot}`,
    attention: (test: string, state: string) => `${test}: ${state}`,
  },
  qualification: {
    title: 'Qualification',
    states: qualified,
    becauses,
    needs: (biological: number, air: number) =>
      air > 0
        ? `${biological} good biological and ${air} air-removal tests in a row`
        : `${biological} good biological tests in a row`,
    soFar: (good: number, needed: number) => `${good} of ${needed} biological tests in a row are good.`,
    airSoFar: (passed: number, needed: number) => `${passed} of ${needed} air-removal tests in a row passed.`,
    programsOut: (programs: string) => `Goods wait until they are proven again: ${programs}.`,
    care: { calibration: 'Calibration', service: 'Service' } satisfies Record<CareDue['what'], string>,
    careStates: {
      inOrder: 'in order',
      overdue: 'overdue',
      outOfTolerance: 'found out of tolerance',
      notOnRecord: 'not on record',
    } satisfies Record<CareDue['state'], string>,
    careMeanings: {
      inOrder: 'Nothing is asked until its day.',
      overdue: 'It puts nothing out of use by itself; every load that is built is told of it until it is done.',
      outOfTolerance:
        'It puts the goods of every programme out of use: have it adjusted and calibrated again, and recall its loads since the last good calibration.',
      notOnRecord: 'No day is known by which it is due. Record the last one with the day of the next.',
    } satisfies Record<CareDue['state'], string>,
    inQuestion: (since: string) => `Loads since ${since} are in question.`,
    open: (programs: string) => `Not yet in a row for: ${programs}.`,
  },
  incubate: (organism: string, from: number, to: number, hours: number) =>
    `${organism}. Incubate at ${from} to ${to} °C for ${hours} h, beside one of the same lot that was not sterilised; no growth read earlier proves nothing. For a rapid indicator give the hours that its maker asks.`,
  recallSince: 'The fault was there from',
  recallSinceHint: 'When its beginning is known, as from the last good calibration. Every load since then counts.',
}
