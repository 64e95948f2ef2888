import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { useSearchParams } from 'react-router'
import { starterDevices } from '#road/catalogue/starter.ts'
import type { Bodies } from '#road/kinds.ts'
import { subjectKey } from '#road/subject.ts'
import { entriesOfQuery, knownQuery } from '../../api/queries.ts'
import { SelectField } from '../../components/Fields.tsx'
import { NotOnRecord } from '../../components/NotOnRecord.tsx'
import type { OnKept } from '../../components/EntryForm.tsx'
import { words } from '../../words/words.ts'
import { CatalogueImport } from './CatalogueImport.tsx'
import { DeviceFields } from './DeviceFields.tsx'

type Device = Bodies['device-registered']

/** A device from nothing, from a generic one, or from one that is registered. */
export function DeviceForm({ onKept }: { readonly onKept: OnKept }) {
  const [search] = useSearchParams()
  const copied = search.get('copy')
  const devices = useQuery({ ...knownQuery('device'), enabled: copied !== null }).data
  const row = devices?.find((each) => subjectKey(each.subject) === copied)
  if (copied !== null && devices === undefined) return <p className="soft">{words.loading}</p>
  if (row !== undefined) {
    const { id, ...attributes } = row.state
    return <Changed initial={{ device: id, ...attributes }} onKept={onKept} />
  }
  if (copied !== null) return <NotOnRecord of={`device:${copied}`} />
  return <FromStarter onKept={onKept} />
}

/** A registered device under its own key is corrected; under another key it is one more device. */
function Changed({ initial, onKept }: { readonly initial: Device; readonly onKept: OnKept }) {
  const entries = useQuery(entriesOfQuery(initial.device)).data
  if (entries === undefined) return <p className="soft">{words.loading}</p>
  const made = entries.findLast((entry) => entry.kind === 'device-registered')
  return <DeviceFields initial={initial} onKept={onKept} corrects={made?.id} />
}

function FromStarter({ onKept }: { readonly onKept: OnKept }) {
  const [chosen, setChosen] = useState('')
  const [initial, setInitial] = useState<Device | null>(null)
  const w = words.catalogue
  return (
    <>
      <section className="sheet stack" aria-label={w.starter}>
        <h2>{w.starter}</h2>
        <p className="soft">{w.starterSays}</p>
        <div className="row" style={{ alignItems: 'end' }}>
          <SelectField
            label={w.generic}
            value={chosen}
            optional
            options={starterDevices.map((each) => ({ value: each.device as string, label: each.name }))}
            onChange={setChosen}
          />
          <button
            type="button"
            disabled={chosen === ''}
            onClick={() => setInitial(starterDevices.find((each) => each.device === chosen) ?? null)}
          >
            {w.copy}
          </button>
        </div>
        <output>{initial === null ? '' : w.copied(initial.name)}</output>
      </section>
      <CatalogueImport />
      <DeviceFields key={initial?.device ?? 'new'} initial={initial} onKept={onKept} />
    </>
  )
}
