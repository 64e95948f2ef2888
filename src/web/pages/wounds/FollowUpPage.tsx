import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'react-router'
import type { AttachmentDigest } from '#road/attachment.ts'
import type { Bodies } from '#road/kinds.ts'
import type { CaseLine, KnownRow } from '#service/api-types.ts'
import type { SubjectId } from '#road/subject.ts'
import { subjectQuery } from '../../api/queries.ts'
import { linesQuery } from '../../api/wound-queries.ts'
import { Empty } from '../../components/Empty.tsx'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { IfOnRecord } from '../../components/NotOnRecord.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { Photos } from '../../components/Photos.tsx'
import { PhotosField } from '../../components/PhotosField.tsx'
import { useSearchKey } from '../../components/use-key.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { IdentityOfCase } from '../../sign-in/IdentityOfCase.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

type Made = Bodies['follow-up-made']
type Sign = Made['signs'][number]
/** What was heard of the wound, or that nobody was reached. */
type Heard = Made['wound'] | 'nobody'

/** One call to one patient, made for a phone held in one hand. */
export function FollowUpPage() {
  const of = useSearchKey('case')
  const w = words.wounds.followUp
  return (
    <Page title={w.title}>
      {of === null ? (
        <Empty>
          <Link to={paths.wounds}>{words.wounds.calls.title}</Link>
        </Empty>
      ) : (
        <IfOnRecord of={of}>
          <OneCase id={of} />
        </IfOnRecord>
      )}
    </Page>
  )
}

function OneCase({ id }: { readonly id: SubjectId<'case'> }) {
  const times = useTimes()
  const w = words.wounds.followUp
  const lines = useQuery(linesQuery(460))
  const line = lines.data?.find((each) => each.case === id)
  return (
    <Loaded query={useQuery(subjectQuery(id))}>
      {(row) => (
        <>
          <p>
            {w.of(
              row.state.booked?.procedure ?? '',
              row.state.booked?.patient ?? '',
              row.state.recorded === null ? '—' : times.day(row.state.recorded.startedAt),
            )}
          </p>
          <IdentityOfCase of={id} why="followUp" />
          <MakeCall key={id} id={id} />
          {line !== undefined && <Calls line={line} />}
          <Made row={row} />
          <details>
            <summary>{w.end}</summary>
            <EndForm id={id} />
          </details>
        </>
      )}
    </Loaded>
  )
}

/** The form; once it is kept, what it asks for next. A form that stayed filled in would be kept twice. */
function MakeCall({ id }: { readonly id: SubjectId<'case'> }) {
  const w = words.wounds.followUp
  const [kept, setKept] = useState<Heard | null>(null)
  if (kept === null)
    return (
      <>
        <MadeForm id={id} onKept={setKept} />
        <p>
          <Link to={paths.noteWound(id)}>{w.noteWound}</Link>
        </p>
      </>
    )
  const bad = kept === 'suspicious'
  const says = bad ? w.keptNotWell : kept === 'nobody' ? w.keptNobody : w.keptWell
  return (
    <>
      <Next says={says} to={bad ? paths.noteWound(id) : paths.wounds} action={bad ? w.noteWound : w.toCalls} />
      <p>
        <button type="button" onClick={() => setKept(null)}>
          {w.another}
        </button>
      </p>
    </>
  )
}

interface MadeProps {
  readonly id: SubjectId<'case'>
  readonly onKept: (heard: Heard) => void
}

function MadeForm({ id, onKept }: MadeProps) {
  const w = words.wounds
  const [means, setMeans] = useState<Made['means']>('phone')
  const [reached, setReached] = useState<Made['reached'] | null>(null)
  const [wound, setWound] = useState<Made['wound'] | null>(null)
  const [signs, setSigns] = useState<readonly Sign[]>([])
  const [alive, setAlive] = useState<Made['alive']>('yes')
  const [photos, setPhotos] = useState<readonly AttachmentDigest[]>([])
  const [note, setNote] = useState('')
  const nobody = reached === 'nobody'
  const said = nobody ? 'unknown' : wound
  const toggle = (sign: Sign, on: boolean) => setSigns(on ? [...signs, sign] : signs.filter((each) => each !== sign))
  const body =
    reached === null || said === null
      ? null
      : {
          case: id,
          means,
          reached,
          wound: said,
          signs: nobody ? [] : [...signs],
          alive: nobody ? ('unknown' as const) : alive,
          ...(nobody || photos.length === 0 ? {} : { photos: [...photos] }),
          ...(note === '' ? {} : { note }),
        }
  return (
    <EntryForm
      kind="follow-up-made"
      body={body}
      judged
      action={w.followUp.keep}
      onKept={() => onKept(nobody ? 'nobody' : (said ?? 'unknown'))}
    >
      <ChoiceField label={w.followUp.means} value={means} options={optionsOf(w.means)} onChange={setMeans} />
      <ChoiceField label={w.followUp.reached} value={reached} options={optionsOf(w.reached)} onChange={setReached} />
      {!nobody && (
        <>
          <ChoiceField label={w.followUp.wound} value={wound} options={optionsOf(w.heard)} onChange={setWound} />
          {wound === 'suspicious' && (
            <fieldset className="field">
              <legend>{w.followUp.signs}</legend>
              {optionsOf(w.signs).map(({ value, label }) => (
                <Tick key={value} checked={signs.includes(value)} onChange={(on) => toggle(value, on)}>
                  {label}
                </Tick>
              ))}
            </fieldset>
          )}
          <ChoiceField
            label={w.followUp.alive}
            value={alive}
            options={optionsOf(w.followUp.aliveAnswers)}
            onChange={setAlive}
          />
        </>
      )}
      <TextField label={w.followUp.note} long optional value={note} onChange={setNote} />
      {!nobody && <PhotosField value={photos} onChange={setPhotos} />}
    </EntryForm>
  )
}

function Calls({ line }: { readonly line: CaseLine }) {
  const times = useTimes()
  const w = words.wounds
  return (
    <section className="stack">
      <h2>{w.followUp.calls}</h2>
      <ul className="lines">
        {line.followUp.calls.map((call) => (
          <li key={call.day}>
            <div className="grow">
              {w.callWhy[call.why]}, {w.calls.on(call.day, times.day(call.dueAt))}
            </div>
            <strong>{w.callStates[call.state]}</strong>
          </li>
        ))}
      </ul>
    </section>
  )
}

function Made({ row }: { readonly row: KnownRow<'case'> }) {
  const times = useTimes()
  const w = words.wounds
  const { followUps } = row.state
  if (followUps.length === 0) return null
  return (
    <section className="stack">
      <h2>{w.followUp.made}</h2>
      <ul className="lines">
        {followUps.map((made) => (
          <li key={made.entry}>
            <div className="grow">
              {times.moment(made.at)}: {w.means[made.means]}, {w.reached[made.reached]}, {w.heard[made.wound]}
              {made.signs.length > 0 && ` (${made.signs.map((sign) => w.signs[sign]).join(', ')})`}
              {made.note !== undefined && <div className="small">{made.note}</div>}
              <Photos of={made.photos} />
            </div>
          </li>
        ))}
      </ul>
    </section>
  )
}

function EndForm({ id }: { readonly id: SubjectId<'case'> }) {
  const w = words.wounds
  const [because, setBecause] = useState<Bodies['follow-up-ended']['because'] | ''>('')
  return (
    <EntryForm kind="follow-up-ended" body={because === '' ? null : { case: id, because }} action={w.followUp.end}>
      <p className="soft">{w.followUp.endSays}</p>
      <SelectField label={w.followUp.because} value={because} options={optionsOf(w.endings)} onChange={setBecause} />
    </EntryForm>
  )
}
