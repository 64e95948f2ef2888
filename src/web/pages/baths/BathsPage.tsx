import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link, useLocation } from 'react-router'
import { bathProduct } from '#road/baths/products.ts'
import { subjectKey } from '#road/subject.ts'
import type { KnownRow } from '#service/api-types.ts'
import { knownQuery } from '../../api/queries.ts'
import { Countdown } from '../../clocks/Countdown.tsx'
import { useClocks } from '../../clocks/use-clocks.ts'
import { InDoubt } from '../../components/InDoubt.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { Page } from '../../components/Page.tsx'
import { paths } from '../../paths.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { BathAge } from './BathAge.tsx'
import { BottleForm } from './BottleForm.tsx'
import { Lots } from './Lots.tsx'
import { PourForm } from './PourForm.tsx'
import { ReadySets } from './ReadySets.tsx'

/** Every bath in use, its age and what is in it, and the bottles of strips that test them. */
export function BathsPage() {
  const { hash } = useLocation()
  const [poured, setPoured] = useState(0)
  const w = words.baths
  return (
    <Page title={w.title} lead={w.lead}>
      <Loaded query={useQuery(knownQuery('bath', ['inUse', 'failedStrip']))}>{(rows) => <Baths rows={rows} />}</Loaded>
      <ReadySets />
      <section className="stack">
        <details>
          <summary>{w.pour}</summary>
          <PourForm key={poured} onKept={() => setPoured((before) => before + 1)} />
          {poured > 0 && <output className="told">{w.pouredNow}</output>}
        </details>
        <details id="bottle" open={hash === '#bottle'}>
          <summary>{w.openBottle}</summary>
          <BottleForm />
        </details>
      </section>
      <Lots />
    </Page>
  )
}

function Baths({ rows }: { readonly rows: readonly KnownRow<'bath'>[] }) {
  const clocks = useClocks()
  const w = words.baths
  return (
    <section className="stack" aria-label={w.inUse}>
      <h2>{w.inUse}</h2>
      {rows.length === 0 && <p className="soft">{w.none}</p>}
      <ul className="lines">
        {rows.map(({ subject, standing, state, doubts }) => (
          <li key={subject}>
            <div className="grow">
              <Link to={paths.bath(subject)}>
                {state.product === null ? subjectKey(subject) : bathProduct(state.product)?.agent}
              </Link>{' '}
              {standing !== 'inUse' && <span className="tag stop">{standingText('bath', standing)}</span>}
              <br />
              <span className="soft">
                {state.place}, <BathAge bath={state} />
              </span>
              <InDoubt of={doubts} />
            </div>
            {clocks
              .filter((clock) => clock.at === subject)
              .map((clock) => (
                <Countdown key={clock.key} clock={clock} />
              ))}
          </li>
        ))}
      </ul>
    </section>
  )
}
