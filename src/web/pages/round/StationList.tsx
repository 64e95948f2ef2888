import { Link } from 'react-router'
import { stations } from '../../charts/ring-layout.ts'
import type { Bead } from '../../charts/Ring.tsx'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'
import { MarkShape } from './Legend.tsx'

/** The ring unrolled, for a phone. */
export function StationList({ beads }: { readonly beads: readonly Bead[] }) {
  return (
    <div className="on-phone">
      {stations.map((station) => {
        const here = beads.filter((bead) => bead.station === station).toSorted((a, b) => b.hours - a.hours)
        return (
          <details key={station}>
            <summary>
              <strong>{words.round.stations[station]}</strong> {words.round.sets(here.length)}
            </summary>
            <ul className="lines legend">
              {here.map((bead) => (
                <li key={bead.round}>
                  <MarkShape mark={bead.mark} />
                  <div className="grow">
                    <Link to={paths.oneRound(bead.round)}>{bead.name}</Link>
                    <br />
                    {bead.says}, {bead.wait}
                  </div>
                </li>
              ))}
            </ul>
          </details>
        )
      })}
    </div>
  )
}
