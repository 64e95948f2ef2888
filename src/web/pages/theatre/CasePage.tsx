import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import type { KnownRow } from '#service/api-types.ts'
import { subjectQuery } from '../../api/queries.ts'
import { EntryTable } from '../../components/EntryTable.tsx'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { Named } from '../../components/Named.tsx'
import { Page } from '../../components/Page.tsx'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { useKey } from '../../components/use-key.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { CaseRecord } from './CaseRecord.tsx'
import { EndOfUse } from './EndOfUse.tsx'
import { GuardOfCase } from './GuardOfCase.tsx'
import { IdentityOfCase } from '../../sign-in/IdentityOfCase.tsx'
import { OpenPack } from './OpenPack.tsx'
import { PatientOfCase } from './PatientOfCase.tsx'
import { PlanOfCase } from './PlanOfCase.tsx'
import { RecordForm } from './RecordForm.tsx'

export function CasePage() {
  const id = useKey('case')
  return (
    <LoadedSubject of={id} query={useQuery(subjectQuery(id))}>
      {(row) => <Case row={row} />}
    </LoadedSubject>
  )
}

function Case({ row }: { readonly row: KnownRow<'case'> }) {
  const times = useTimes()
  const { booked, opened, recorded, wounds } = row.state
  const w = words.theatre
  return (
    <Page
      title={booked?.procedure ?? row.subject}
      lead={
        <p className="row">
          <span className="tag strong">{standingText('case', row.standing)}</span>
          <span>
            {booked !== null && (
              <>
                {booked.theatre}, {times.moment(booked.plannedAt)}, {booked.patient}, <Named id={booked.surgeon} />
              </>
            )}
          </span>
          {booked?.implantPlanned === true && <span className="tag">{w.implant}</span>}
        </p>
      }
    >
      {recorded === null && <OpenPack of={row.subject} />}
      <EndOfUse of={row.state} />
      <IdentityOfCase of={row.subject} />
      <PatientOfCase of={row.state} />
      {recorded === null && booked !== null && <PlanOfCase of={row.state} booked={booked} />}
      <GuardOfCase of={row.state} />
      {opened.length === 0 && recorded !== null && <p className="soft">{w.noPacks}</p>}
      {recorded === null ? <RecordForm of={row.state} /> : <CaseRecord recorded={recorded} />}
      <section className="stack">
        <h2>{w.wounds}</h2>
        <ul className="lines">
          {wounds.map((wound) => (
            <li key={wound}>
              <SubjectLink id={wound} />
            </li>
          ))}
        </ul>
        <div className="row">
          <Link className="button" to={paths.noteWound(row.subject)}>
            {w.woundOf}
          </Link>
          <Link className="button" to={paths.traceOf(row.subject)}>
            {w.trace}
          </Link>
        </div>
      </section>
      <EntryTable of={row.subject} />
    </Page>
  )
}
