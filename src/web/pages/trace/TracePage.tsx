import { useQuery } from '@tanstack/react-query'
import { useSearchParams } from 'react-router'
import { parseSubject, subjectKey, subjectKind, type SubjectId } from '#road/subject.ts'
import type { TraceAnswer } from '#service/api-types.ts'
import { subjectQuery, traceQuery } from '../../api/queries.ts'
import { mostRows, TracePicture } from '../../charts/TracePicture.tsx'
import { ChoiceField } from '../../components/Fields.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { isMissing, NotOnRecord } from '../../components/NotOnRecord.tsx'
import { Page } from '../../components/Page.tsx'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { LinkTable } from './LinkTable.tsx'
import { Recalls } from './Recalls.tsx'
import { TraceSearch } from './TraceSearch.tsx'

const directions = ['back', 'forward', 'both'] as const
type Direction = (typeof directions)[number]

export function TracePage() {
  const [search, setSearch] = useSearchParams()
  const asked = search.get('subject') ?? ''
  const subject = parseSubject(asked)
  const direction = directions.find((each) => each === search.get('direction')) ?? defaultDirection(subject)
  if (subject === undefined) {
    return (
      <Page title={words.trace.title} lead={words.trace.lead}>
        {asked !== '' && <p role="alert">{words.missing.noSubject(asked.slice(0, 80))}</p>}
        <TraceSearch first />
        <Recalls />
      </Page>
    )
  }
  return (
    <Traced
      key={subject}
      subject={subject}
      direction={direction}
      onDirection={(next) => setSearch({ subject, direction: next })}
    />
  )
}

/** A wound asks what came before; a load and a machine ask whom they reached. */
function defaultDirection(subject: SubjectId | undefined): Direction {
  if (subject?.startsWith('wound:') || subject?.startsWith('case:')) return 'back'
  return subject?.startsWith('load:') || subject?.startsWith('machine:') ? 'forward' : 'both'
}

interface TracedProps {
  readonly subject: SubjectId
  readonly direction: Direction
  readonly onDirection: (direction: Direction) => void
}

function Traced({ subject, direction, onDirection }: TracedProps) {
  const trace = useQuery(traceQuery(subject, direction))
  const known = useQuery(subjectQuery(subject))
  if (isMissing(trace.error)) {
    return (
      <Page title={words.missing.title(words.standings.kinds[subjectKind(subject)])}>
        <NotOnRecord of={subject} />
      </Page>
    )
  }
  const title = trace.data?.nodes.find((node) => node.subject === subject)?.title ?? subjectKey(subject)
  return (
    <Page
      title={words.trace.of(title)}
      lead={
        <p>
          {words.standings.kinds[known.data?.kind ?? 'round']} <SubjectLink id={subject} />
        </p>
      }
    >
      <ChoiceField
        label={words.trace.direction}
        value={direction}
        options={optionsOf(words.trace.directions)}
        onChange={onDirection}
      />
      <Loaded query={trace}>{(answer) => <Answer trace={answer} subject={subject} />}</Loaded>
      <TraceSearch />
    </Page>
  )
}

function Answer({ trace, subject }: { readonly trace: TraceAnswer; readonly subject: SubjectId }) {
  if (trace.links.length === 0) return <p className="soft">{words.finding.none}</p>
  return (
    <>
      <section className="stack">
        <p className="soft">{words.trace.pictureSays}</p>
        {trace.nodes.length > mostRows && <p className="soft">{words.trace.tooMany(mostRows, trace.nodes.length)}</p>}
        <TracePicture trace={trace} name={subjectKey(subject)} />
      </section>
      {trace.more.length > 0 && (
        <section className="stack">
          <p>{words.trace.more}</p>
          <ul className="plain row">
            {trace.more.map((id) => (
              <li key={id}>
                <SubjectLink id={id} />
              </li>
            ))}
          </ul>
        </section>
      )}
      <LinkTable trace={trace} />
    </>
  )
}
