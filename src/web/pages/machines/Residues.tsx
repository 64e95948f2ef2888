import { useState } from 'react'
import { ResidueFigures, residueOver } from '#road/gases/residue.ts'
import { residueContacts, residueDoses, residueSurface, spansOf } from '#road/gases/residue-limits.ts'
import type { ResidueAgent, ResidueContact } from '#road/gases/residue-limits.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import type { SubjectId } from '#road/subject.ts'
import { useQuery } from '@tanstack/react-query'
import { knownQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, SelectField, TextField } from '../../components/Fields.tsx'
import { Findings } from '../../components/Findings.tsx'
import { LimitLine } from '../../components/LimitLine.tsx'
import { Named } from '../../components/Named.tsx'
import { usePolicy } from '../../components/use-policy.ts'
import { Why } from '../../components/Why.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** What was found of ethylene oxide and its chlorohydrin on the goods of a load, against the limits of their contact. */
export function Residues({ load }: { readonly load: LoadKnown }) {
  const w = words.safety.residue
  const policy = usePolicy()
  const times = useTimes()
  return (
    <section className="sheet stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      {load.gas.residues.length === 0 && <p className="soft">{w.none}</p>}
      {load.gas.residues.map((test) => {
        const found = residueOver(test.figures, policy)
        return (
          <div key={test.entry} className="stack">
            <p>
              <Why of={{ title: w.title, value: w.contacts[test.figures.contact], entry: test.entry }}>
                {w.contacts[test.figures.contact]}
              </Why>
              {test.device !== undefined && (
                <>
                  , <Named id={test.device} />
                </>
              )}
              , {times.moment(test.at)}. {found.length === 0 && <strong>{w.within}</strong>}
            </p>
            {found.length > 0 && (
              <Findings findings={found.map((each) => ({ rule: 'residues-within-limits', ...each }))} />
            )}
          </div>
        )
      })}
      <details>
        <summary>{w.record}</summary>
        <ResidueForm key={load.gas.residues.length} load={load.id} />
      </details>
    </section>
  )
}

type Texts = Readonly<Record<string, string>>

function ResidueForm({ load }: { readonly load: SubjectId<'load'> }) {
  const w = words.safety.residue
  const { data: devices = [] } = useQuery(knownQuery('device'))
  const [contact, setContact] = useState<ResidueContact | null>(null)
  const [device, setDevice] = useState<SubjectId<'device'> | ''>('')
  const [texts, setTexts] = useState<Texts>({})
  const figures = contact === null ? null : figuresOf(contact, texts)
  const field = (key: string, label: string) => (
    <TextField
      key={key}
      label={label}
      type="number"
      step="any"
      min={0}
      optional
      value={texts[key] ?? ''}
      onChange={(text) => setTexts((before) => ({ ...before, [key]: text }))}
    />
  )
  return (
    <EntryForm
      kind="residue-tested"
      judged
      body={figures === null ? null : { load, ...(device === '' ? {} : { device }), figures }}
      lacking={contact === null ? undefined : figures === null ? w.noFigure : undefined}
      action={w.record}
    >
      <ChoiceField
        label={w.contact}
        value={contact}
        options={residueContacts.map((value) => ({ value, label: w.contacts[value] }))}
        onChange={setContact}
      />
      <SelectField
        label={w.device}
        value={device}
        optional
        options={devices.map((row) => ({ value: row.subject, label: row.state.name }))}
        onChange={setDevice}
      />
      {contact !== null &&
        (['eo', 'ech'] as const).map((agent) => (
          <fieldset key={agent} className="field">
            <legend>{w.agents[agent]}</legend>
            <div className="pair">
              {spansOf[contact].map((span) => field(`${agent} ${span}`, w.spans[span]))}
              {field(`${agent} surface`, w.surface)}
            </div>
            {spansOf[contact].map((span) => (
              <LimitLine key={span} id={residueDoses[agent][span].id} />
            ))}
            <LimitLine id={residueSurface[agent].id} />
          </fieldset>
        ))}
    </EntryForm>
  )
}

/** Null while nothing was measured. */
function figuresOf(contact: ResidueContact, texts: Texts): ResidueFigures | null {
  const number = (key: string) => (texts[key] === undefined || texts[key] === '' ? undefined : Number(texts[key]))
  const doses = (agent: ResidueAgent) => {
    const measured = spansOf[contact].flatMap((span) => {
      const value = number(`${agent} ${span}`)
      return value === undefined ? [] : [[span, value] as const]
    })
    return measured.length === 0 ? undefined : Object.fromEntries(measured)
  }
  const all = {
    eoMg: doses('eo'),
    echMg: doses('ech'),
    eoMicrogramsPerCm2: number('eo surface'),
    echMicrogramsPerCm2: number('ech surface'),
  }
  const known = Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined))
  if (Object.keys(known).length === 0) return null
  return ResidueFigures.safeParse({ contact, ...known }).data ?? null
}
