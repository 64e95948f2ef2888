import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { AttachmentDigest } from '#road/attachment.ts'
import { type SoilAnalyte, soilLimits } from '#road/cleaning/cleaning-test-limits.ts'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery, subjectQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { LimitLine } from '../../components/LimitLine.tsx'
import { PhotosField } from '../../components/PhotosField.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

interface Props {
  readonly round: SubjectId<'round'>
  readonly wash: SubjectId<'wash'> | undefined
  readonly set: SubjectId<'set'> | null
}

/** What a test found on a washed set, held against alert and action levels before it is sent. */
export function CleaningTestForm({ round, wash, set }: Props) {
  const w = words.water
  const [analyte, setAnalyte] = useState<SoilAnalyte>('protein')
  const [text, setText] = useState('')
  const [method, setMethod] = useState('')
  const [device, setDevice] = useState<SubjectId<'device'> | ''>('')
  const [photos, setPhotos] = useState<readonly AttachmentDigest[]>([])
  const value = Number(text)
  const named = { ...(wash === undefined ? {} : { wash }), ...(device === '' ? {} : { device }) }
  const shown = photos.length === 0 ? {} : { photos: [...photos] }
  return (
    <details>
      <summary>{w.test}</summary>
      <EntryForm
        kind="cleaning-tested"
        judged
        body={
          text === '' || Number.isNaN(value)
            ? null
            : { round, analyte, value, ...named, ...(method === '' ? {} : { method }), ...shown }
        }
        action={w.recordTest}
        onKept={() => {
          setText('')
          setPhotos([])
        }}
      >
        <div className="pair">
          <SelectField label={w.analyte} value={analyte} options={optionsOf(w.analytes)} onChange={setAnalyte} />
          <TextField
            label={w.value(soilLimits[analyte].unit)}
            type="number"
            step="any"
            min={0}
            value={text}
            onChange={setText}
          />
        </div>
        {set !== null && <DeviceField set={set} value={device} onChange={setDevice} />}
        <TextField label={w.method} optional value={method} onChange={setMethod} />
        <PhotosField value={photos} onChange={setPhotos} />
        <LimitLine id={soilLimits[analyte].alert.id} />
        <LimitLine id={soilLimits[analyte].action.id} />
      </EntryForm>
    </details>
  )
}

interface DeviceProps {
  readonly set: SubjectId<'set'>
  readonly value: SubjectId<'device'> | ''
  readonly onChange: (value: SubjectId<'device'> | '') => void
}

/** Which instrument of the set was tested. */
function DeviceField({ set, value, onChange }: DeviceProps) {
  const { data: known } = useQuery(subjectQuery(set))
  const { data: devices = [] } = useQuery(knownQuery('device'))
  const lines = known?.state.countSheet ?? []
  return (
    <SelectField
      label={words.water.device}
      value={value}
      optional
      options={lines.map((line) => ({
        value: line.device,
        label: devices.find((row) => row.subject === line.device)?.state.name ?? line.device,
      }))}
      onChange={onChange}
    />
  )
}
