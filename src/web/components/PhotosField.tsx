import { useMutation } from '@tanstack/react-query'
import { useId } from 'react'
import type { AttachmentDigest } from '#road/attachment.ts'
import { keepFile } from '../api/keep-file.ts'
import { words } from '../words/words.ts'
import { Photos } from './Photos.tsx'
import { ProblemNote } from './ProblemNote.tsx'

/** As many as an entry may name. */
const mostPhotos = 6

interface Props {
  readonly value: readonly AttachmentDigest[]
  readonly onChange: (value: readonly AttachmentDigest[]) => void
}

/** Photos from the camera of the tablet or from a file; each is kept at once and named by its digest. */
export function PhotosField({ value, onChange }: Props) {
  const id = useId()
  const w = words.safety.photos
  const keeping = useMutation({
    mutationFn: async (files: readonly File[]) => {
      const pictures = files.filter((file) => file.type.startsWith('image/'))
      if (pictures.length < files.length) throw new RangeError(w.notPhoto)
      const kept = await Promise.all(pictures.map((file) => keepFile(file, file.type)))
      return kept.map(({ digest }) => digest as AttachmentDigest)
    },
    onSuccess: (digests) => onChange([...new Set([...value, ...digests])].slice(0, mostPhotos)),
  })
  return (
    <div className="field">
      <label htmlFor={id}>
        {w.label}
        <span className="soft small"> ({words.form.optional})</span>
      </label>
      <input
        id={id}
        type="file"
        accept="image/*"
        multiple
        disabled={value.length >= mostPhotos}
        aria-describedby={`${id}-says`}
        onChange={(event) => {
          keeping.mutate([...(event.target.files ?? [])])
          event.target.value = ''
        }}
      />
      <span id={`${id}-says`} className="soft small">
        {keeping.isPending ? w.keeping : w.says(value.length, mostPhotos)}
      </span>
      {keeping.error !== null && <ProblemNote error={keeping.error} />}
      <Photos of={value} />
      {value.length > 0 && (
        <div>
          <button type="button" className="quiet" onClick={() => onChange([])}>
            {w.clear}
          </button>
        </div>
      )}
    </div>
  )
}
