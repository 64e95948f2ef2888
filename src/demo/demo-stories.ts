import type { SubjectId } from '#road/subject.ts'
import { lateShelf } from './story-days.ts'

/** The seed of which the stories are told. With it their ids are the same on whatever day the demo is made. */
export const demoSeed = 1

/** About how many steps the demo has, files and entries together. */
export const demoSteps = 48_600

interface FailedIndicator {
  readonly machine: SubjectId<'machine'>
  readonly failedLoad: SubjectId<'load'>
  readonly recall: SubjectId<'recall'>
  readonly lastGoodLoad: SubjectId<'load'>
  readonly loads: number
  readonly packs: number
  /** Opened on the day after the failure was read, for a case that is still running. */
  readonly runningCase: SubjectId<'case'>
  readonly openedAfterFailure: SubjectId<'round'>
  readonly onShelf: readonly SubjectId<'round'>[]
}

interface LateWounds {
  readonly load: SubjectId<'load'>
  readonly shelf: string
  readonly exposedCases: readonly SubjectId<'case'>[]
  readonly wounds: readonly SubjectId<'wound'>[]
  /** Packs whose dampness was entered seven weeks late. */
  readonly notedWet: readonly SubjectId<'round'>[]
  /** The one that nobody has judged yet. */
  readonly unjudged: SubjectId<'wound'>
}

/** The rise that is over, from the days on which sets were washed by hand. */
interface HandWash {
  readonly chart: SubjectId<'chart'>
  /** The infected, in the order of their operations. */
  readonly cases: readonly SubjectId<'case'>[]
  /** Operations from the first infected one to the one that brought the chart over its limit. */
  readonly alarmAfterOperations: number
  /** Days from the first of these wounds that was noted until the alarm could be known. */
  readonly alarmKnownWithinDays: number
}

/** What there is to be found in the demo, for the tests and the tutorial. */
export const demoStories: {
  readonly failedIndicator: FailedIndicator
  readonly lateWounds: LateWounds
  readonly handWash: HandWash
} = {
  failedIndicator: {
    machine: 'machine:b',
    failedLoad: 'load:b-0757',
    recall: 'recall:b-0757',
    lastGoodLoad: 'load:b-0746',
    loads: 9,
    packs: 20,
    runningCase: 'case:c-1188',
    onShelf: ['round:gynae-1-r071', 'round:gynae-3-r071', 'round:chole-2-r188'],
    openedAfterFailure: 'round:basic-4-r198',
  },
  lateWounds: {
    load: 'load:a-0757',
    shelf: lateShelf,
    exposedCases: [
      'case:c-0936',
      'case:c-0937',
      'case:c-0940',
      'case:c-0941',
      'case:c-0945',
      'case:c-0946',
      'case:c-0950',
      'case:c-0951',
      'case:c-0955',
      'case:c-0957',
      'case:c-0961',
    ],
    wounds: [
      'wound:w-0936',
      'wound:w-0937',
      'wound:w-0941',
      'wound:w-0945',
      'wound:w-0950',
      'wound:w-0951',
      'wound:w-0957',
    ],
    notedWet: ['round:ports-3-r158', 'round:scope-1-r158', 'round:chole-4-r148'],
    unjudged: 'wound:w-0951',
  },
  handWash: {
    chart: 'chart:all-operations',
    cases: ['case:c-0646', 'case:c-0651', 'case:c-0653', 'case:c-0655', 'case:c-0656', 'case:c-0658'],
    alarmAfterOperations: 9,
    alarmKnownWithinDays: 7,
  },
}
