import { useQuery } from '@tanstack/react-query'
import type { Bodies } from '#road/kinds.ts'
import {
  lineFrom,
  lineTo,
  packingStaff,
  steriliserPlaces,
  theatreCloses,
  theatreMustClose,
  theatreOpens,
  washRoomStaff,
  washerMinutes,
  washerPlaces,
} from '#road/planning/limits.ts'
import type { Policy } from '#road/policy.ts'
import { methodOf } from '#road/sterilising/method-of.ts'
import { hoursKey, type UnitKnown } from '#road/unit/fold.ts'
import { knownQuery } from '../../api/queries.ts'
import { usePolicy } from '../../components/use-policy.ts'
import { words } from '../../words/words.ts'

export type Hours = Bodies['hours-set']['hours']

export interface RunByDefault {
  readonly places: number
  /** Undefined where it is the usual time of the method. */
  readonly minutes: number | undefined
}

/** One theatre, place of work or machine, with its hours as they are set, or by default. */
export interface HoursLine {
  readonly name: string
  readonly hours: Hours
  readonly isSet: boolean
  /** What a run of the machine is taken to hold and last where neither is set nor on record. */
  readonly run?: RunByDefault | undefined
}

/** The theatres that are set or booked, both places of work, and the machines that a set goes through. */
export function useHoursLines(set: UnitKnown['hours']): readonly HoursLine[] {
  const policy = usePolicy()
  const machines = useQuery(knownQuery('machine')).data ?? []
  const booked = useQuery(knownQuery('case', ['booked'])).data ?? []
  const byTheatre = Object.values(set ?? {}).flatMap((hours) => (hours.kind === 'theatre' ? [hours.theatre] : []))
  const named = booked.flatMap(({ state }) => (state.booked === null ? [] : [state.booked.theatre]))
  const theatres = [...new Set([...byTheatre, ...named])].sort()
  const line = (name: string, byDefault: Hours): HoursLine => {
    const own = set?.[hoursKey(byDefault)]
    if (own === undefined) return { name, hours: byDefault, isSet: false }
    const { at: _at, entry: _entry, by: _by, ...hours } = own
    return { name, hours, isSet: true }
  }
  const { from, to, staff, theatreHours, runOf } = defaultsOf(policy)
  return [
    ...theatres.map((theatre) => line(theatre, { kind: 'theatre', theatre, ...theatreHours })),
    ...(['washRoom', 'packing'] as const).map((place) =>
      line(words.hours.places[place], { kind: 'staff', place, count: staff[place], from, to }),
    ),
    ...machines
      .filter(({ state }) => state.type === 'washer' || methodOf(state) !== undefined)
      .toSorted((a, b) => (a.state.name < b.state.name ? -1 : 1))
      .map(({ subject, state }) => ({
        ...line(state.name, { kind: 'machine', machine: subject, from, to }),
        run: runOf(state.type === 'washer'),
      })),
  ]
}

function defaultsOf(policy: Policy) {
  const clock = (limit: typeof lineFrom): string => clockOfHours(policy.limit(limit).value)
  return {
    from: clock(lineFrom),
    to: clock(lineTo),
    staff: { washRoom: policy.limit(washRoomStaff).value, packing: policy.limit(packingStaff).value },
    theatreHours: { opens: clock(theatreOpens), closes: clock(theatreCloses), mustClose: clock(theatreMustClose) },
    runOf: (washer: boolean): RunByDefault => ({
      places: policy.limit(washer ? washerPlaces : steriliserPlaces).value,
      minutes: washer ? policy.limit(washerMinutes).value : undefined,
    }),
  }
}

/** 7.5 is `07:30`. */
function clockOfHours(hours: number): string {
  const minutes = Math.round(hours * 60)
  const two = (n: number): string => String(n).padStart(2, '0')
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`
}
