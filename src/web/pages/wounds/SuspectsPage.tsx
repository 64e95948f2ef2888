import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { InfectionChoice, Suspects } from '#service/api-types.ts'
import { suspectsQuery } from '../../api/wound-queries.ts'
import { ExposurePicture } from '../../charts/ExposurePicture.tsx'
import { Empty } from '../../components/Empty.tsx'
import { SelectField } from '../../components/Fields.tsx'
import { Folded } from '../../components/Folded.tsx'
import { Page } from '../../components/Page.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { Clusters } from './Clusters.tsx'
import { conclusionOf, nameOfExposure, nameOfMember } from './name-of-exposure.ts'
import { parts } from './parts.ts'
import { SamplesBeside } from './SamplesBeside.tsx'
import { SuspectTable } from './SuspectTable.tsx'
import { WoundPlaces } from './WoundPlaces.tsx'

const shown = 12

export function SuspectsPage() {
  const w = words.wounds.suspects
  const [days, setDays] = useState<keyof typeof w.dayChoices>('180')
  const [infections, setInfections] = useState<InfectionChoice>('all')
  const query = useQuery(suspectsQuery(Number(days), infections))
  return (
    <Page title={w.title} lead={w.lead}>
      <WoundPlaces />
      <div className="pair no-print">
        <SelectField label={w.days} value={days} options={optionsOf(w.dayChoices)} onChange={setDays} />
        <SelectField label={w.which} value={infections} options={optionsOf(w.infections)} onChange={setInfections} />
      </div>
      {query.data === undefined && query.error !== null && (
        <ProblemNote error={query.error} retry={() => void query.refetch()} />
      )}
      {query.data === undefined && query.error === null && <p aria-live="polite">{w.working}</p>}
      {query.data !== undefined &&
        (query.data.ranking.infected === 0 ? <Empty>{w.none}</Empty> : <RankedSuspects suspects={query.data} />)}
      {query.data !== undefined && <SamplesBeside samples={query.data.samples} />}
      <Clusters days={Number(days)} />
    </Page>
  )
}

/** The ranking in words, as a table and as a picture. */
export function RankedSuspects({ suspects }: Ranked) {
  return (
    <>
      <Conclusion suspects={suspects} />
      <Figures suspects={suspects} />
    </>
  )
}

/** The same on a page that is about more: in words, and the rest where it is asked for. */
export function FoldedRanking({ suspects }: Ranked) {
  const w = words.wounds.suspects
  return (
    <>
      <Conclusion suspects={suspects} />
      <Folded id={parts.figures} title={w.figures} says={w.figuresSay(suspects.ranking.compared)}>
        <Figures suspects={suspects} />
      </Folded>
    </>
  )
}

interface Ranked {
  readonly suspects: Suspects
}

function Conclusion({ suspects }: Ranked) {
  const w = words.wounds.suspects
  const { conclusion } = suspects.ranking
  return (
    <section className="stack" id={parts.ranking} aria-label={w[conclusion]}>
      <h2>{w[conclusion]}</h2>
      <p>{conclusionOf(suspects)}</p>
      <p className="soft">{w.caution}</p>
    </section>
  )
}

function Figures({ suspects }: Ranked) {
  const w = words.wounds.suspects
  const { ranking, titles, lines } = suspects
  const first = ranking.ranked.slice(0, shown)
  return (
    <>
      <ExposurePicture
        bands={first
          .slice(0, 8)
          .flatMap((row) =>
            row.id === null ? [] : [{ key: `${row.type} ${row.id}`, name: nameOfExposure(row, titles) }],
          )}
        lines={lines}
      />
      <SuspectTable suspects={suspects} rows={first} />
      {ranking.alike.length > 0 && (
        <section className="stack">
          <h2>{w.alike}</h2>
          <ul>
            {ranking.alike.slice(0, 5).map((group) => (
              <li key={group.members.join()}>
                {group.members.map((member) => nameOfMember(member, suspects)).join(', ')}. {w.tests[group.test.kind]}
              </li>
            ))}
          </ul>
        </section>
      )}
      {ranking.organism.kind !== 'none' && (
        <section className="stack">
          <h2>{w.organism}</h2>
          <p>{ranking.organism.says}</p>
        </section>
      )}
    </>
  )
}
