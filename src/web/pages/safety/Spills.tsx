import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import { knownQuery } from '../../api/queries.ts'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'
import { SpillLine } from '../baths/SpillLine.tsx'

/** Every spill of every bath, the newest first. */
export function Spills() {
  const w = words.safety.spills
  const { data: baths = [] } = useQuery(knownQuery('bath'))
  const spills = baths
    .flatMap(({ subject, state }) => state.spills.map((spill) => ({ bath: subject, spill })))
    .toSorted((a, b) => (a.spill.at < b.spill.at ? 1 : -1))
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <p className="soft">
        {spills.length === 0 && `${w.none} `}
        <Link to={paths.baths}>{w.where}</Link>
      </p>
      <ul className="lines">
        {spills.map(({ bath, spill }) => (
          <SpillLine key={spill.entry} spill={spill} bath={bath} />
        ))}
      </ul>
    </section>
  )
}
