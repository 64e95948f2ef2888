import { useState } from 'react'
import type { AttachmentDigest } from '#road/attachment.ts'
import type { MachineKnown } from '#road/sterilising/machine-fold.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField } from '../../components/Fields.tsx'
import { LimitLine } from '../../components/LimitLine.tsx'
import { Photos } from '../../components/Photos.tsx'
import { PhotosField } from '../../components/PhotosField.tsx'
import { Why } from '../../components/Why.tsx'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

/** The foil test of an ultrasonic bath: the last one with its photos, and the form for the next. */
export function FoilTest({ machine }: { readonly machine: MachineKnown }) {
  const w = words.safety.foil
  const times = useTimes()
  const last = machine.foilTest
  return (
    <section className="sheet stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      {last === undefined ? (
        <p>{w.never}</p>
      ) : (
        <>
          <p>
            <Why of={{ title: w.title, value: w.results[last.result], entry: last.entry }}>
              {w.results[last.result]}
            </Why>
            , {times.moment(last.at)}, {w.said(last.strips, last.seconds)}
          </p>
          <Photos of={last.photos} />
        </>
      )}
      <LimitLine id="foil-test-every-days" />
      <FoilForm key={last?.entry ?? 'first'} machine={machine} />
    </section>
  )
}

function FoilForm({ machine }: { readonly machine: MachineKnown }) {
  const w = words.safety.foil
  const [strips, setStrips] = useState('9')
  const [seconds, setSeconds] = useState('45')
  const [result, setResult] = useState<keyof typeof w.results | null>(null)
  const [photos, setPhotos] = useState<readonly AttachmentDigest[]>([])
  const complete = result !== null && Number.isInteger(Number(strips)) && Number(strips) > 0 && Number(seconds) > 0
  return (
    <EntryForm
      kind="foil-tested"
      judged
      body={
        complete
          ? {
              machine: machine.id,
              strips: Number(strips),
              seconds: Number(seconds),
              result,
              ...(photos.length === 0 ? {} : { photos: [...photos] }),
            }
          : null
      }
      action={w.record}
    >
      <p className="soft">{w.how}</p>
      <div className="pair">
        <TextField label={w.strips} type="number" min={1} step={1} value={strips} onChange={setStrips} />
        <TextField label={w.seconds} type="number" min={10} step="any" value={seconds} onChange={setSeconds} />
      </div>
      <ChoiceField label={w.result} value={result} options={optionsOf(w.results)} onChange={setResult} />
      <PhotosField value={photos} onChange={setPhotos} />
    </EntryForm>
  )
}
