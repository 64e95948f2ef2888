import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { useNavigate, useSearchParams } from 'react-router'
import type { AttachmentDigest } from '#road/attachment.ts'
import type { Instant } from '#road/instant.ts'
import type { Bodies } from '#road/kinds.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { subjectQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, SelectField, TextField } from '../../components/Fields.tsx'
import { IfOnRecord } from '../../components/NotOnRecord.tsx'
import { Page } from '../../components/Page.tsx'
import { PhotosField } from '../../components/PhotosField.tsx'
import { useSearchKey } from '../../components/use-key.ts'
import { datedKey } from '../../make-key.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { type CaseRow, useRecordedCases } from '../theatre/use-cases.ts'

type Noted = Bodies['wound-noted']

export function NotePage() {
  const of = useSearchKey('case')
  return (
    <Page title={words.theatre.wound.noteTitle}>
      <CaseChoice of={of} />
      {of === null ? (
        <p className="soft">{words.theatre.wound.chooseCase}</p>
      ) : (
        <IfOnRecord of={of}>
          <NoteForm key={of} of={of} />
        </IfOnRecord>
      )}
    </Page>
  )
}

/** The latest cases; an older one is reached from its own page. */
function CaseChoice({ of }: { readonly of: SubjectId<'case'> | null }) {
  const times = useTimes()
  const [, setSearch] = useSearchParams()
  const { data = [] } = useRecordedCases()
  const chosen = useQuery({ ...subjectQuery(of ?? 'case:none'), enabled: of !== null }).data
  const optionOf = (row: CaseRow) => ({
    value: subjectKey(row.subject),
    label: `${times.day(row.state.recorded?.startedAt ?? row.since)}, ${row.state.booked?.procedure ?? ''}, ${row.state.booked?.patient ?? ''}`,
  })
  const options = data.map(optionOf)
  const key = of === null ? '' : subjectKey(of)
  const known = key === '' || options.some((option) => option.value === key)
  const older = chosen === undefined ? { value: key, label: key } : optionOf(chosen)
  return (
    <div className="form">
      <SelectField
        label={words.theatre.wound.caseKey}
        value={key}
        options={known ? options : [older, ...options]}
        onChange={(next) => setSearch(next === '' ? {} : { case: next })}
      />
    </div>
  )
}

function NoteForm({ of }: { readonly of: SubjectId<'case'> }) {
  const navigate = useNavigate()
  const times = useTimes()
  const [wound] = useState(() => datedKey('wound', 'wound', new Date()))
  const [onset, setOnset] = useState(() => times.toInput(new Date().toISOString()))
  const [depth, setDepth] = useState<Noted['depth'] | null>(null)
  const [signs, setSigns] = useState('')
  const [culture, setCulture] = useState<Noted['culture']>('notTaken')
  const [acidFast, setAcidFast] = useState<Noted['acidFast']>('notDone')
  const [photos, setPhotos] = useState<readonly AttachmentDigest[]>([])
  const [organism, setOrganism] = useState('')
  const onsetAt = times.fromInput(onset)
  const { wound: w, depths, cultures, acidFast: acidFastWords } = words.theatre
  const complete = onsetAt !== undefined && depth !== null && signs !== ''
  return (
    <EntryForm
      kind="wound-noted"
      body={
        complete
          ? {
              wound,
              case: of,
              onsetAt: onsetAt as Instant,
              depth,
              signs,
              culture,
              acidFast,
              ...(photos.length === 0 ? {} : { photos: [...photos] }),
              ...(organism === '' ? {} : { organism }),
            }
          : null
      }
      action={w.recordDo}
      onKept={() => void navigate(paths.wound(wound))}
    >
      <TextField label={w.onset} type="datetime-local" value={onset} onChange={setOnset} />
      <ChoiceField label={w.depth} value={depth} options={optionsOf(depths)} onChange={setDepth} />
      <TextField label={w.signs} long value={signs} onChange={setSigns} />
      <ChoiceField label={w.culture} value={culture} options={optionsOf(cultures)} onChange={setCulture} />
      <ChoiceField label={w.acidFast} value={acidFast} options={optionsOf(acidFastWords)} onChange={setAcidFast} />
      <TextField label={w.organism} optional value={organism} onChange={setOrganism} />
      <PhotosField value={photos} onChange={setPhotos} />
    </EntryForm>
  )
}
