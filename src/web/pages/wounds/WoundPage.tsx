import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import type { KnownRow } from '#service/api-types.ts'
import { subjectQuery } from '../../api/queries.ts'
import { linesQuery } from '../../api/wound-queries.ts'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { Page } from '../../components/Page.tsx'
import { Photos } from '../../components/Photos.tsx'
import { useKey } from '../../components/use-key.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { CultureForm, TreatmentForm } from './WoundForms.tsx'
import { JudgeForm } from './JudgeForm.tsx'

/** One wound: its story, what grew, what was done, and whether it counts as an infection. */
export function WoundPage() {
  const id = useKey('wound')
  return (
    <LoadedSubject of={id} query={useQuery(subjectQuery(id))}>
      {(row) => (
        <Page title={words.wounds.wound.title}>
          <OneWound row={row} />
        </Page>
      )}
    </LoadedSubject>
  )
}

function OneWound({ row }: { readonly row: KnownRow<'wound'> }) {
  const w = words.wounds
  const { judged } = row.state
  return (
    <>
      <Noted row={row} />
      <p>
        <strong>
          {judged === null
            ? w.wound.notJudged
            : `${w.wound.judged}: ${w.wound.outcomes[judged.outcome]}${judged.outcome === 'infection' ? `, ${words.theatre.depths[judged.depth].toLowerCase()}` : ''}`}
        </strong>
        {judged?.outcome === 'infection' && <Counted row={row} />}
      </p>
      <p>
        <Link to={paths.traceOf(row.state.id)}>{words.theatre.wound.exposures}</Link>
      </p>
      <Story row={row} />
      <details open={judged === null}>
        <summary>{judged === null ? w.wound.judge : w.wound.judgeAgain}</summary>
        <p className="soft">{w.wound.judgeSays}</p>
        <JudgeForm key={judged?.entry ?? 'new'} row={row} />
      </details>
      <details>
        <summary>{w.wound.culture}</summary>
        <CultureForm id={row.state.id} />
      </details>
      <details>
        <summary>{w.wound.treat}</summary>
        <TreatmentForm id={row.state.id} />
      </details>
    </>
  )
}

/** What was seen when it was noted, with its photos. */
function Noted({ row }: { readonly row: KnownRow<'wound'> }) {
  const times = useTimes()
  const { noted } = row.state
  const operation = useQuery({ ...subjectQuery(noted?.case ?? 'case:none'), enabled: noted !== null })
  if (noted === null) return null
  const w = words.theatre
  const booked = operation.data?.state.booked
  const germ = [
    noted.organism ?? w.cultures[noted.culture],
    ...(noted.acidFast === 'positive' ? [w.wound.acidFast.toLowerCase()] : []),
  ]
  return (
    <>
      <p>
        <Link to={paths.oneCase(noted.case)}>
          {booked === undefined || booked === null ? w.case : `${booked.procedure}, ${booked.patient}`}
        </Link>
        , {w.wound.onset.toLowerCase()} {times.day(noted.onsetAt)}: {noted.signs}
      </p>
      <p className="soft">
        {w.depths[noted.depth]}. {w.wound.culture}: {germ.join(', ')}
      </p>
      <Photos of={noted.photos} />
    </>
  )
}

/** Whether an infection lies within the days that count. */
function Counted({ row: { state } }: { readonly row: KnownRow<'wound'> }) {
  const w = words.wounds.wound
  const { data: lines = [] } = useQuery(linesQuery(460))
  const infection = lines.find((line) => line.infection?.wound === state.id)?.infection
  if (infection === undefined || infection === null) return null
  return <>. {infection.counted ? w.counted(infection.onsetDays) : w.lateOn(infection.onsetDays)}</>
}

function Story({ row }: { readonly row: KnownRow<'wound'> }) {
  const times = useTimes()
  const w = words.wounds
  const { cultures, treatments } = row.state
  const told = [
    ...cultures.map((each) => ({
      entry: each.entry,
      at: each.at,
      photos: [],
      says: [
        w.materials[each.material],
        words.theatre.cultures[each.culture],
        each.organism,
        each.acidFast === 'positive' ? words.theatre.wound.acidFast : undefined,
      ],
    })),
    ...treatments.map((each) => ({
      entry: each.entry,
      at: each.at,
      photos: each.photos ?? [],
      says: [
        w.treatments[each.what],
        each.related === undefined ? undefined : w.wound.relatedSays[each.related],
        each.note,
      ],
    })),
  ].sort((a, b) => (a.at < b.at ? -1 : 1))
  if (told.length === 0) return null
  return (
    <section className="stack">
      <h2>{w.wound.story}</h2>
      <ul className="lines">
        {told.map((each) => (
          <li key={each.entry}>
            <div className="grow">
              {times.day(each.at)}: {each.says.filter((part) => part !== undefined).join(', ')}
              <Photos of={each.photos} />
            </div>
          </li>
        ))}
      </ul>
    </section>
  )
}
