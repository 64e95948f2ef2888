import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { useSearchParams } from 'react-router'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { EntryForm, type OnKept } from '../../components/EntryForm.tsx'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { slug } from '../../make-key.ts'
import { words } from '../../words/words.ts'

/** One piece that is counted by itself; its key follows its device and serial number until somebody writes another. */
export function ItemForm({ onKept }: { readonly onKept: OnKept }) {
  const devices = useQuery(knownQuery('device')).data ?? []
  // What a scan of its code said, where that led here.
  const [search] = useSearchParams()
  const scanned = search.get('device')
  const [device, setDevice] = useState<SubjectId<'device'> | ''>(scanned === null ? '' : `device:${scanned}`)
  const [serial, setSerial] = useState(search.get('serial') ?? '')
  const [giai, setGiai] = useState('')
  const [ownKey, setKey] = useState<string | null>(null)
  const [before, setBefore] = useState('')
  const w = words.items
  const key = ownKey ?? (device === '' || serial === '' ? '' : slug(`${subjectKey(device)}-${serial}`))
  return (
    <EntryForm
      kind="item-registered"
      body={
        device === '' || serial === '' || key === ''
          ? null
          : {
              item: `item:${key}`,
              device,
              serial,
              ...(before === '' ? {} : { usesBefore: Number(before) }),
              ...(giai.trim() === '' ? {} : { giai: giai.trim() }),
            }
      }
      action={words.unit.register.item}
      onKept={onKept}
    >
      <SelectField
        label={words.unit.register.device1}
        value={device}
        options={devices.map((row) => ({ value: row.subject, label: row.state.name }))}
        onChange={setDevice}
      />
      <div className="pair">
        <TextField label={w.serial} value={serial} onChange={setSerial} />
        <TextField label={words.unit.register.key} hint={words.unit.register.keyHint} value={key} onChange={setKey} />
      </div>
      <TextField label={words.scan.giai} optional value={giai} onChange={setGiai} />
      <TextField label={w.usesBefore} type="number" min={0} optional value={before} onChange={setBefore} />
    </EntryForm>
  )
}
