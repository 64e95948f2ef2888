import { useQuery } from '@tanstack/react-query'
import { knownQuery } from '../api/queries.ts'
import { paths } from '../paths.ts'
import { words } from '../words/words.ts'
import { useRounds } from './use-rounds.ts'

export interface BeginStep {
  readonly id: keyof typeof words.unit.guide.steps
  readonly done: boolean
  /** A unit may go without it. */
  readonly optional: boolean
  readonly to: string
  readonly action: string
}

/** What a unit needs before its first set has been washed, in order; undefined until all of it is known. */
export function useBeginning(): readonly BeginStep[] | undefined {
  const people = useQuery(knownQuery('person')).data
  const devices = useQuery(knownQuery('device')).data
  const sets = useQuery(knownQuery('set')).data
  const machines = useQuery(knownQuery('machine')).data
  const outlets = useQuery(knownQuery('outlet')).data
  const baths = useQuery(knownQuery('bath')).data
  const rounds = useRounds().data
  if (!people || !devices || !sets || !machines || !outlets || !baths || !rounds) return undefined
  const w = words.unit
  const machineTypes = machines.map((row) => row.state.type)
  const pastWash = rounds.some(({ standing }) => standing !== 'used' && standing !== 'soaking')
  const must = { optional: false }
  const may = { optional: true }
  return [
    { id: 'person', done: people.length > 1, ...must, to: paths.register('person'), action: w.register.person },
    { id: 'device', done: devices.length > 0, ...must, to: paths.register('device'), action: w.register.device },
    { id: 'set', done: sets.length > 0, ...must, to: paths.register('set'), action: w.register.set },
    {
      id: 'steriliser',
      done: machineTypes.some((type) => type.endsWith('Steriliser')),
      ...must,
      to: paths.register('machine'),
      action: w.register.machine,
    },
    {
      id: 'washer',
      done: machineTypes.includes('washer'),
      ...must,
      to: paths.registerMachine('washer'),
      action: w.register.machine,
    },
    { id: 'outlet', done: outlets.length > 0, ...may, to: paths.water, action: words.water.register },
    { id: 'bath', done: baths.length > 0, ...may, to: paths.baths, action: words.baths.pour },
    {
      id: 'round',
      done: sets.some((row) => row.state.rounds > 0),
      ...must,
      to: paths.washRoom,
      action: w.guide.goWash,
    },
    {
      id: 'wash',
      done: pastWash || sets.some((row) => row.state.rounds > 1),
      ...must,
      to: paths.washRoom,
      action: w.guide.goWash,
    },
  ]
}
