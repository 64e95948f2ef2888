import { useQuery } from '@tanstack/react-query'
import { NavLink } from 'react-router'
import { knownQuery } from '../api/queries.ts'
import { paths } from '../paths.ts'
import { words } from '../words/words.ts'
import { useRounds } from './use-rounds.ts'
import { useWaitingLoads } from './use-waiting-loads.ts'

interface Room {
  readonly area: string
  readonly to: string
  readonly name: string
  readonly says?: string | undefined
  /** The door that sets go through from here. */
  readonly door?: 'door-right' | 'door-below'
}

/** The rooms as they lie: a set goes round from the theatre by the wash room, packing, the machines and the shelf. */
export function Plan() {
  const counts = useCounts()
  const { shell } = words
  const rooms: Room[] = [
    { area: 'theatre', to: paths.theatre, name: shell.theatre, says: counts.theatre, door: 'door-right' },
    { area: 'wash', to: paths.washRoom, name: shell.wash, says: counts.wash, door: 'door-below' },
    { area: 'round', to: paths.round, name: shell.round, says: counts.round },
    { area: 'packing', to: paths.packing, name: shell.packing, says: counts.packing, door: 'door-below' },
    { area: 'machines', to: paths.machines, name: shell.machines, says: counts.machines },
    { area: 'shelf', to: paths.shelf, name: shell.shelf, says: counts.shelf, door: 'door-below' },
  ]
  const offices: Room[] = [
    { area: 'list', to: paths.list, name: shell.list },
    { area: 'wounds', to: paths.wounds, name: shell.wounds },
    { area: 'trace', to: paths.trace, name: shell.trace, says: counts.trace },
    { area: 'bench', to: paths.bench, name: shell.bench },
    { area: 'unit', to: paths.unit, name: shell.unit },
  ]
  return (
    <>
      <Rooms rooms={rooms} />
      <Rooms rooms={offices} offices />
    </>
  )
}

function Rooms({ rooms, offices = false }: { readonly rooms: readonly Room[]; readonly offices?: boolean }) {
  return (
    <ul className={offices ? 'rooms offices' : 'rooms'}>
      {rooms.map((room) => (
        <li key={room.area} style={{ gridArea: room.area }} className={room.door ? `door ${room.door}` : ''}>
          <NavLink to={room.to} end={room.to === '/'}>
            {room.name}
            {room.says !== undefined && room.says !== '' && <span>{room.says}</span>}
          </NavLink>
        </li>
      ))}
    </ul>
  )
}

function useCounts(): Record<'theatre' | 'wash' | 'packing' | 'machines' | 'shelf' | 'round' | 'trace', string> {
  const { data: rounds = [] } = useRounds()
  const loads = useWaitingLoads()
  const { data: recalls = [] } = useQuery(knownQuery('recall', ['open']))
  const count = (...standings: string[]) => rounds.filter((round) => standings.includes(round.standing)).length
  const { counts } = words.shell
  return {
    theatre: counts.theatre(count('opened')),
    wash: counts.wash(count('used', 'soaking', 'washed', 'sentBack')),
    packing: counts.packing(count('inspected')),
    machines: counts.machines(loads.length),
    shelf: counts.shelf(count('onShelf', 'released')),
    round: counts.round(rounds.length),
    trace: counts.recalls(recalls.length),
  }
}
