import { Link } from 'react-router'
import { stations } from '../../charts/ring-layout.ts'
import type { Bead } from '../../charts/Ring.tsx'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'

/** All that the ring shows, as a table. */
export function BeadTable({ beads }: { readonly beads: readonly Bead[] }) {
  const sorted = beads.toSorted(
    (a, b) => stations.indexOf(a.station) - stations.indexOf(b.station) || b.hours - a.hours,
  )
  return (
    <details className="not-on-phone">
      <summary>{words.round.table}</summary>
      <table>
        <caption>{words.round.tableCaption}</caption>
        <thead>
          <tr>
            <th scope="col">{words.round.set}</th>
            <th scope="col">{words.round.station}</th>
            <th scope="col">{words.round.where}</th>
            <th scope="col">{words.round.waiting}</th>
          </tr>
        </thead>
        <tbody>
          {sorted.map((bead) => (
            <tr key={bead.round}>
              <th scope="row">
                <Link to={paths.oneRound(bead.round)}>{bead.name}</Link>
              </th>
              <td>{words.round.stations[bead.station]}</td>
              <td>{bead.says}</td>
              <td>{bead.wait}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  )
}
