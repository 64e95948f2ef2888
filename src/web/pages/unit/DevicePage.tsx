import { useQuery } from '@tanstack/react-query'
import { Link, useParams } from 'react-router'
import type { SubjectId } from '#road/subject.ts'
import { subjectQuery } from '../../api/queries.ts'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { Page } from '../../components/Page.tsx'
import { RoutePanel } from '../../components/RoutePanel.tsx'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'

export function DevicePage() {
  const { key = '' } = useParams()
  const id: SubjectId<'device'> = `device:${key}`
  const query = useQuery(subjectQuery(id))
  const w = words.catalogue
  return (
    <LoadedSubject of={id} query={query}>
      {({ state }) => (
        <Page title={state.name} lead={words.unit.contact[state.contact]}>
          <p className="row no-print">
            <Link className="button" to={paths.cards([id])}>
              {w.card}
            </Link>
            <Link className="button" to={`${paths.register('device')}?copy=${key}`}>
              {w.edit}
            </Link>
            <Link className="button" to={paths.traceOf(id)}>
              {words.shell.trace}
            </Link>
          </p>
          <RoutePanel device={state} />
        </Page>
      )}
    </LoadedSubject>
  )
}
