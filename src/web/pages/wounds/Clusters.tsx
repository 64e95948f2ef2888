import { useQuery } from '@tanstack/react-query'
import { clustersQuery } from '../../api/wound-queries.ts'
import { Loaded } from '../../components/Loaded.tsx'
import { useNames } from '../../components/Named.tsx'
import { Table } from '../../components/Table.tsx'
import { Why } from '../../components/Why.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { shownP } from './shown-p.ts'

/** The closest groups of infections, each with how often chance alone would bring it. */
export function Clusters({ days }: { readonly days: number }) {
  const times = useTimes()
  const w = words.wounds.clusters
  const nameOfPerson = useNames('person')
  const nameOfMachine = useNames('machine')
  const nameOf = (place: string): string => {
    if (place.startsWith('person:')) return nameOfPerson(place as `person:${string}`)
    return place.startsWith('machine:') ? nameOfMachine(place as `machine:${string}`) : place
  }
  return (
    <section className="stack">
      <h2>{w.title}</h2>
      <p className="soft">{w.lead}</p>
      <Loaded query={useQuery(clustersQuery(days))}>
        {({ inTime, inPlace }) => {
          const rows = [
            ...(inTime === null
              ? []
              : [{ ...inTime, by: 'time' as const, place: null, working: 'temporal-scan-bernoulli-mc' }]),
            ...inPlace.map((each) => ({ ...each, working: 'space-time-scan-bernoulli-mc' })),
          ]
          if (rows.length === 0) return <p>{w.none}</p>
          return (
            <Table>
              <caption className="unseen">{w.title}</caption>
              <thead>
                <tr>
                  <th scope="col">{w.by}</th>
                  <th scope="col">{w.when}</th>
                  <th scope="col">{w.infected}</th>
                  <th scope="col">{w.chance}</th>
                </tr>
              </thead>
              <tbody>
                {rows.map((row) => (
                  <tr key={row.by}>
                    <th scope="row">
                      {w.places[row.by]}
                      {row.place !== null && `: ${nameOf(row.place)}`}
                    </th>
                    <td>{w.span(times.date(row.from), times.date(row.to))}</td>
                    <td>{w.of(row.infections, row.operations)}</td>
                    <td>
                      <Why of={{ title: w.chanceTitle, value: shownP(row.p), working: row.working }}>
                        {shownP(row.p)}
                      </Why>
                    </td>
                  </tr>
                ))}
              </tbody>
            </Table>
          )
        }}
      </Loaded>
    </section>
  )
}
