import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'react-router'
import { parseSubject } from '#road/subject.ts'
import type { InfectionChoice, Suspects } from '#service/api-types.ts'
import { suspectsQuery } from '../../api/wound-queries.ts'
import { ExposurePicture } from '../../charts/ExposurePicture.tsx'
import { Empty } from '../../components/Empty.tsx'
import { SelectField } from '../../components/Fields.tsx'
import { Page } from '../../components/Page.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { Table } from '../../components/Table.tsx'
import { Why } from '../../components/Why.tsx'
import { paths } from '../../paths.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { Clusters } from './Clusters.tsx'
import { conclusionOf, nameOfExposure, nameOfMember } from './name-of-exposure.ts'
import { WoundPlaces } from './WoundPlaces.tsx'

type Row = Suspects['ranking']['ranked'][number]
const shown = 12
/** What has a recall of its own; of a machine, the load is recalled from the moment of its fault. */
const recallable: ReadonlySet<string> = new Set(['load', 'lot', 'bath'])

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
      <Clusters days={Number(days)} />
    </Page>
  )
}

/** The ranking in words, as a table and as a picture. */
export function RankedSuspects({ suspects }: { readonly suspects: Suspects }) {
  const w = words.wounds.suspects
  const { ranking, titles, lines } = suspects
  const first = ranking.ranked.slice(0, shown)
  return (
    <>
      <section className="stack" aria-label={w[ranking.conclusion]}>
        <h2>{w[ranking.conclusion]}</h2>
        <p>{conclusionOf(suspects)}</p>
        <p className="soft">{w.caution}</p>
      </section>
      <ExposurePicture
        bands={first
          .slice(0, 8)
          .flatMap((row) =>
            row.id === null ? [] : [{ key: `${row.type} ${row.id}`, name: nameOfExposure(row, titles) }],
          )}
        lines={lines}
      />
      <Table>
        <caption>{w.title}</caption>
        <thead>
          <tr>
            <th scope="col">{w.rank}</th>
            <th scope="col">{w.exposure}</th>
            <th scope="col">{w.exposed}</th>
            <th scope="col">{w.unexposed}</th>
            <th scope="col">{w.odds}</th>
            <th scope="col">{w.p}</th>
          </tr>
        </thead>
        <tbody>
          {first.map((row) => (
            <SuspectRow key={row.rank} row={row} titles={titles} />
          ))}
        </tbody>
      </Table>
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

function SuspectRow({ row, titles }: { readonly row: Row; readonly titles: Suspects['titles'] }) {
  const w = words.wounds.suspects
  const subject = row.id === null ? undefined : parseSubject(row.id)
  const share = (infected: number, others: number): string => `${infected} of ${infected + others}`
  const [low, high] = row.oddsRatioLimits
  const upper = typeof high === 'number' ? high.toFixed(1) : w.endless
  const odds = row.oddsRatio === null ? '—' : typeof row.oddsRatio === 'number' ? row.oddsRatio.toFixed(1) : w.boundless
  return (
    <tr>
      <td>{row.rank}</td>
      <th scope="row">
        {nameOfExposure(row, titles)}
        {subject !== undefined && (
          <>
            {' '}
            <Link to={paths.traceOf(subject)}>{w.look}</Link>
            {recallable.has(row.type) && (
              <>
                {' '}
                <Link
                  to={paths.recallOf(
                    subject,
                    w.recallWhy(
                      nameOfExposure(row, titles),
                      share(row.casesExposed, row.nonCasesExposed),
                      share(row.casesUnexposed, row.nonCasesUnexposed),
                    ),
                  )}
                >
                  {w.recall}
                </Link>
              </>
            )}
          </>
        )}
        {row.findings.length > 0 && (
          <div className="small">
            {w.against}: {row.findings.join('; ')}
          </div>
        )}
      </th>
      <td>{share(row.casesExposed, row.nonCasesExposed)}</td>
      <td>{share(row.casesUnexposed, row.nonCasesUnexposed)}</td>
      <td>
        {odds} ({low.toFixed(1)} – {upper})
      </td>
      <td>
        <Why of={{ title: w.pTitle, value: row.familyWiseP.toPrecision(2), working: 'exposure-ranking' }}>
          {row.familyWiseP < 0.001 ? '< 0.001' : row.familyWiseP.toFixed(3)}
        </Why>
      </td>
    </tr>
  )
}
