import { type ReactNode, useState } from 'react'
import type { SetKnown } from '#road/catalogue/fold.ts'
import type { ItemKnown } from '#road/catalogue/item-fold.ts'
import type { Bodies } from '#road/kinds.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { MoveForm } from './MoveForm.tsx'

/** Everything that may be recorded of an item; nothing more once it is retired. */
export function ItemRecord({ item, set }: { readonly item: ItemKnown; readonly set: SetKnown | undefined }) {
  const w = words.items
  return (
    <section className="stack" aria-label={w.record}>
      <h2>{w.record}</h2>
      <Folded title={w.move}>
        <MoveForm item={item} set={set} />
      </Folded>
      {item.retired === null && (
        <>
          <Folded key={item.out === null ? 'out' : 'back'} title={item.out === null ? w.sendOut : w.back}>
            <RepairForm item={item} />
          </Folded>
          <Folded key={`tests ${item.insulation.length}`} title={w.test}>
            <InsulationForm item={item} />
          </Folded>
          <Folded title={w.retire}>
            <RetireForm item={item} />
          </Folded>
        </>
      )}
    </section>
  )
}

function Folded({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <details className="sheet">
      <summary>{title}</summary>
      {children}
    </details>
  )
}

function RepairForm({ item }: { readonly item: ItemKnown }) {
  const [what, setWhat] = useState('')
  const [repairer, setRepairer] = useState('')
  const w = words.items
  const back = item.out !== null
  return (
    <EntryForm
      kind={back ? 'item-repaired' : 'item-sent-out'}
      body={what === '' ? null : { item: item.id, what, ...(repairer === '' ? {} : { repairer }) }}
      action={back ? w.back : w.sendOut}
    >
      <TextField label={back ? w.repaired : w.wrong} value={what} onChange={setWhat} />
      <TextField label={w.repairer} optional value={repairer} onChange={setRepairer} />
    </EntryForm>
  )
}

function InsulationForm({ item }: { readonly item: ItemKnown }) {
  const [result, setResult] = useState<'passed' | 'failed' | null>(null)
  const [kilovolts, setKilovolts] = useState('')
  const [fault, setFault] = useState('')
  const w = words.items
  return (
    <EntryForm
      kind="item-insulation-tested"
      body={
        result === null
          ? null
          : {
              item: item.id,
              result,
              ...(kilovolts === '' ? {} : { kilovolts: Number(kilovolts) }),
              ...(fault === '' || result === 'passed' ? {} : { faultFromTipMm: Number(fault) }),
            }
      }
      action={w.test}
    >
      <ChoiceField
        label={w.result}
        value={result}
        options={optionsOf({ passed: w.passed, failed: w.failed })}
        onChange={setResult}
      />
      <div className="pair">
        <TextField
          label={w.kilovolts}
          type="number"
          min={0}
          step="any"
          optional
          value={kilovolts}
          onChange={setKilovolts}
        />
        {result === 'failed' && (
          <TextField label={w.fault} type="number" min={0} step="any" optional value={fault} onChange={setFault} />
        )}
      </div>
    </EntryForm>
  )
}

function RetireForm({ item }: { readonly item: ItemKnown }) {
  const [because, setBecause] = useState<Bodies['item-retired']['because'] | null>(null)
  const [note, setNote] = useState('')
  const w = words.items
  return (
    <EntryForm
      kind="item-retired"
      body={because === null ? null : { item: item.id, because, ...(note === '' ? {} : { note }) }}
      action={w.retire}
    >
      <ChoiceField label={w.because} value={because} options={optionsOf(w.retireReasons)} onChange={setBecause} />
      <TextField label={w.note} optional value={note} onChange={setNote} />
    </EntryForm>
  )
}
