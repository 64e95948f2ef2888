import { useState } from 'react'
import type { AttachmentDigest } from '#road/attachment.ts'
import type { Bodies } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, SelectField, TextField } from '../../components/Fields.tsx'
import { PhotosField } from '../../components/PhotosField.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { cultureBody, CultureFields, useCulture } from './CultureFields.tsx'

type Cultured = Bodies['wound-cultured']
type Treated = Bodies['wound-treated']

export function CultureForm({ id }: { readonly id: SubjectId<'wound'> }) {
  const w = words.wounds
  const [material, setMaterial] = useState<Cultured['material'] | null>(null)
  const [told, setTold] = useCulture('pending')
  const culture = cultureBody(told)
  const body = material === null || culture === null ? null : { wound: id, material, ...culture }
  return (
    <EntryForm kind="wound-cultured" body={body} judged action={w.wound.cultureDo}>
      <ChoiceField label={w.wound.material} value={material} options={optionsOf(w.materials)} onChange={setMaterial} />
      <CultureFields value={told} onChange={setTold} />
    </EntryForm>
  )
}

export function TreatmentForm({ id }: { readonly id: SubjectId<'wound'> }) {
  const w = words.wounds
  const [what, setWhat] = useState<Treated['what'] | ''>('')
  const [photos, setPhotos] = useState<readonly AttachmentDigest[]>([])
  const [note, setNote] = useState('')
  const [related, setRelated] = useState<NonNullable<Treated['related']> | null>(null)
  const death = what === 'death'
  return (
    <EntryForm
      kind="wound-treated"
      body={
        what === '' || (death && related === null)
          ? null
          : {
              wound: id,
              what,
              ...(photos.length === 0 ? {} : { photos: [...photos] }),
              ...(note === '' ? {} : { note }),
              ...(death && related !== null ? { related } : {}),
            }
      }
      action={w.wound.treatDo}
    >
      <SelectField label={w.wound.what} value={what} options={optionsOf(w.treatments)} onChange={setWhat} />
      {death && (
        <ChoiceField
          label={w.wound.related}
          value={related}
          options={optionsOf(w.wound.relatedAnswers)}
          onChange={setRelated}
        />
      )}
      <TextField label={w.followUp.note} long optional value={note} onChange={setNote} />
      <PhotosField value={photos} onChange={setPhotos} />
    </EntryForm>
  )
}
