import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import type { KnownRow } from '#service/api-types.ts'
import { subjectKey } from '#road/subject.ts'
import { subjectQuery } from '../../api/queries.ts'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { useNames } from '../../components/Named.tsx'
import { PatientOfSet } from '../../components/PatientNoted.tsx'
import { Page } from '../../components/Page.tsx'
import { useKey } from '../../components/use-key.ts'
import { paths } from '../../paths.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { PackLabel } from './PackLabel.tsx'
import { SealForm } from './SealForm.tsx'

export function PackPage() {
  const id = useKey('round')
  return (
    <LoadedSubject of={id} query={useQuery(subjectQuery(id))}>
      {(row) => <Pack row={row} />}
    </LoadedSubject>
  )
}

function Pack({ row }: { readonly row: KnownRow<'round'> }) {
  const setName = useNames('set')
  const { set, sealed } = row.state
  return (
    <Page
      title={words.wash.packing.of(setName(set))}
      lead={
        <p>
          {standingText('round', row.standing)}, <span className="key">{subjectKey(row.subject)}</span>
        </p>
      }
    >
      <PatientOfSet of={row.state.began?.case} />
      {sealed !== null && (
        <>
          <div className="told row apart">
            <p>{words.wash.packing.sealedTell}</p>
            <Link className="button" to={paths.machines}>
              {words.wash.packing.toMachines}
            </Link>
          </div>
          <PackLabel round={row.state} />
        </>
      )}
      {sealed === null && set !== null && <SealForm round={row.subject} set={set} />}
    </Page>
  )
}
