import { useState } from 'react'
import type { ImplantCode } from '#road/operating/implant.ts'
import type { Instant } from '#road/instant.ts'
import type { Bodies } from '#road/kinds.ts'
import { antibiotics } from '#road/operating/antibiotics.ts'
import type { WoundClass } from '#road/operating/entries.ts'
import type { CaseKnown } from '#road/operating/fold.ts'
import type { SubjectId } from '#road/subject.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { type Times, useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { ImplantCodes } from './ImplantCodes.tsx'
import { useSurgeons } from './use-surgeons.ts'

interface Fields {
  readonly startedAt: string
  readonly endedAt: string
  readonly woundClass: WoundClass | null
  readonly surgeon: SubjectId<'person'> | ''
  readonly asa: string
  readonly position: string
  readonly implant: string
  readonly lot: string
  readonly codes: readonly ImplantCode[]
  readonly drug: string
  readonly drugAt: string
  readonly converted: boolean
}

export function RecordForm({ of }: { readonly of: CaseKnown }) {
  const surgeons = useSurgeons()
  const times = useTimes()
  const [fields, setFields] = useState<Fields>(() => beginning(of, times))
  const change = (part: Partial<Fields>) => setFields((before) => ({ ...before, ...part }))
  const w = words.theatre
  return (
    <section className="stack">
      <h2>{w.record}</h2>
      <EntryForm kind="case-recorded" judged body={bodyOf(of.id, fields, times)} action={w.recordDo}>
        <div className="pair">
          <TextField
            label={w.startedAt}
            type="datetime-local"
            value={fields.startedAt}
            onChange={(startedAt) => change({ startedAt })}
          />
          <TextField
            label={w.endedAt}
            type="datetime-local"
            value={fields.endedAt}
            onChange={(endedAt) => change({ endedAt })}
          />
        </div>
        <ChoiceField
          label={w.woundClass}
          value={fields.woundClass}
          options={optionsOf(w.woundClasses)}
          onChange={(woundClass) => change({ woundClass })}
        />
        <div className="pair">
          <SelectField
            label={w.surgeon}
            value={fields.surgeon}
            options={surgeons}
            onChange={(surgeon) => change({ surgeon })}
          />
          <TextField
            label={w.position}
            type="number"
            min={1}
            optional
            value={fields.position}
            onChange={(position) => change({ position })}
          />
          <TextField
            label={w.asa}
            type="number"
            min={1}
            optional
            value={fields.asa}
            onChange={(asa) => change({ asa })}
          />
        </div>
        <Given fields={fields} change={change} />
        <Tick checked={fields.converted} onChange={(converted) => change({ converted })}>
          {w.converted}
        </Tick>
      </EntryForm>
    </section>
  )
}

interface GivenProps {
  readonly fields: Fields
  readonly change: (part: Partial<Fields>) => void
}

/** What the patient was given: an antibiotic with its time, an implant with its lot. */
function Given({ fields, change }: GivenProps) {
  const w = words.theatre
  return (
    <>
      <div className="pair">
        <TextField label={w.drug} optional value={fields.drug} onChange={(drug) => change({ drug })} />
        {fields.drug !== '' && (
          <TextField
            label={w.drugAt}
            type="datetime-local"
            value={fields.drugAt}
            onChange={(drugAt) => change({ drugAt })}
          />
        )}
      </div>
      <div className="pair">
        <TextField
          label={w.implantDescription}
          optional
          value={fields.implant}
          onChange={(implant) => change({ implant })}
        />
        {fields.implant !== '' && (
          <TextField label={w.implantLot} optional value={fields.lot} onChange={(lot) => change({ lot })} />
        )}
      </div>
      <ImplantCodes
        codes={fields.codes}
        onChange={(codes) => change({ codes, implant: fields.implant || w.implantCodes.unnamed })}
      />
    </>
  )
}

function beginning(of: CaseKnown, times: Times): Fields {
  const planned = times.toInput(of.opened[0]?.at ?? of.booked?.plannedAt ?? new Date().toISOString())
  const [first] = of.doses.toSorted((a, b) => (a.at < b.at ? -1 : 1))
  return {
    startedAt: planned,
    endedAt: times.toInput(new Date().toISOString()),
    woundClass: null,
    surgeon: of.booked?.surgeon ?? '',
    asa: '',
    position: '',
    implant: '',
    lot: '',
    codes: [],
    // The first dose is the one that is held against the incision.
    drug: first === undefined ? '' : first.drug === 'other' ? (first.name ?? '') : antibiotics[first.drug].name,
    drugAt: first === undefined ? planned : times.toInput(first.at),
    converted: false,
  }
}

function bodyOf(id: SubjectId<'case'>, fields: Fields, times: Times): Bodies['case-recorded'] | null {
  const startedAt = times.fromInput(fields.startedAt)
  const endedAt = times.fromInput(fields.endedAt)
  const drugAt = times.fromInput(fields.drugAt)
  const { woundClass, surgeon } = fields
  if (startedAt === undefined || endedAt === undefined || woundClass === null || surgeon === '') return null
  if (fields.drug !== '' && drugAt === undefined) return null
  return {
    case: id,
    startedAt: startedAt as Instant,
    endedAt: endedAt as Instant,
    woundClass,
    surgeon,
    implant:
      fields.implant === ''
        ? null
        : {
            description: fields.implant,
            ...(fields.lot === '' ? {} : { lot: fields.lot }),
            ...(fields.codes.length === 0 ? {} : { codes: [...fields.codes] }),
          },
    antibiotic: fields.drug === '' ? null : { drug: fields.drug, startedAt: (drugAt ?? startedAt) as Instant },
    convertedToOpen: fields.converted,
    ...(fields.asa === '' ? {} : { asa: Number(fields.asa) }),
    ...(fields.position === '' ? {} : { positionOnList: Number(fields.position) }),
  }
}
