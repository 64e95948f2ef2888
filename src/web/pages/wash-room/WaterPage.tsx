import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import { waterFound } from '#road/cleaning/water-found.ts'
import type { KnownRow } from '#service/api-types.ts'
import { knownQuery } from '../../api/queries.ts'
import { usePolicy } from '../../components/use-policy.ts'
import { Empty } from '../../components/Empty.tsx'
import { Findings } from '../../components/Findings.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { Page } from '../../components/Page.tsx'
import { Since } from '../../components/Since.tsx'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'
import { FilterForm } from './FilterForm.tsx'
import { OutletForm } from './OutletForm.tsx'
import { SampleForm } from './SampleForm.tsx'

/** The outlets of the unit, their last samples, and the form for the next. */
export function WaterPage() {
  return (
    <Page title={words.water.title} lead={words.water.lead}>
      <Loaded query={useQuery(knownQuery('outlet'))}>{(outlets) => <Water outlets={outlets} />}</Loaded>
    </Page>
  )
}

function Water({ outlets }: { readonly outlets: readonly KnownRow<'outlet'>[] }) {
  const w = words.water
  return (
    <>
      {outlets.length === 0 ? (
        <Empty>
          <p>{w.none}</p>
        </Empty>
      ) : (
        <ul className="lines">
          {outlets.map((row) => (
            <Outlet key={row.subject} row={row} />
          ))}
        </ul>
      )}
      {outlets.length > 0 && (
        <section className="sheet stack" aria-label={w.sampleTitle}>
          <h2>{w.sampleTitle}</h2>
          <SampleForm outlets={outlets} />
        </section>
      )}
      <section className="sheet stack" aria-label={w.registerTitle}>
        <h2>{w.registerTitle}</h2>
        <OutletForm />
      </section>
    </>
  )
}

function Outlet({ row }: { readonly row: KnownRow<'outlet'> }) {
  const w = words.water
  const policy = usePolicy()
  const { use, samples } = row.state
  const last = samples.at(-1)
  const found = last === undefined || use === null ? [] : waterFound(last, use, policy)
  return (
    <li>
      <div className="grow stack">
        <p>
          <Link to={paths.traceOf(row.subject)}>{row.state.name}</Link>
          {use !== null && `, ${w.uses[use]}`}
          <br />
          <span className="soft">
            {last === undefined ? (
              w.neverSampled
            ) : (
              <>
                {w.sampled} <Since at={last.at} /> {w.ago}
                {last.figures.map(({ property, value }) => `, ${w.properties[property]} ${value}`).join('')}
                {last.organism !== undefined && `, ${last.organism}`}
              </>
            )}
          </span>
        </p>
        {last !== undefined && found.length === 0 && <p>{w.good}</p>}
        <details>
          <summary>{words.lots.field.changeFilter}</summary>
          <FilterForm outlet={row.subject} />
        </details>
        {found.length > 0 && <Findings findings={found.map((each) => ({ rule: 'water-within-limits', ...each }))} />}
      </div>
    </li>
  )
}
