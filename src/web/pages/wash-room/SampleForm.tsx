import { useState } from 'react'
import { type HardnessUnit } from '#workings/physics/hardness.ts'
import { waterProperties, type WaterProperty, waterTable, waterUnits } from '#road/cleaning/water-limits.ts'
import type { SubjectId } from '#road/subject.ts'
import type { KnownRow } from '#service/api-types.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

/** One sample of one outlet: a field for each figure that its use has a limit for. */
export function SampleForm({ outlets }: { readonly outlets: readonly KnownRow<'outlet'>[] }) {
  const w = words.water
  const [chosen, setChosen] = useState<SubjectId<'outlet'> | ''>('')
  const [texts, setTexts] = useState<Partial<Record<WaterProperty, string>>>({})
  const [hardnessUnit, setHardnessUnit] = useState<HardnessUnit>('mgPerLCaCO3')
  const [organism, setOrganism] = useState('')
  const outlet = chosen === '' ? outlets[0]?.subject : chosen
  const use = outlets.find((row) => row.subject === outlet)?.state.use ?? null
  const asked = waterProperties.filter((property) =>
    waterTable.some((row) => row.use === use && row.property === property),
  )
  const figures = asked.flatMap((property) => {
    const text = texts[property] ?? ''
    const value = Number(text)
    return text === '' || Number.isNaN(value) ? [] : [{ property, value }]
  })
  return (
    <EntryForm
      kind="water-sampled"
      judged
      body={
        outlet === undefined || figures.length === 0
          ? null
          : { outlet, figures, hardnessUnit, ...(organism.length < 2 ? {} : { organism }) }
      }
      lacking={figures.length === 0 ? w.noFigure : undefined}
      action={w.sample}
      onKept={() => setTexts({})}
    >
      <SelectField
        label={w.outlet}
        value={outlet ?? ''}
        options={outlets.map((row) => ({ value: row.subject, label: row.state.name }))}
        onChange={setChosen}
      />
      <div className="pair">
        {asked.map((property) => (
          <TextField
            key={property}
            label={
              property === 'hardness' || property === 'ph'
                ? w.properties[property]
                : `${w.properties[property]}, ${waterUnits[property]}`
            }
            type="number"
            step="any"
            min={0}
            optional
            value={texts[property] ?? ''}
            onChange={(text) => setTexts((before) => ({ ...before, [property]: text }))}
          />
        ))}
        <SelectField
          label={w.hardnessUnit}
          value={hardnessUnit}
          options={optionsOf(w.hardness)}
          onChange={setHardnessUnit}
        />
      </div>
      <TextField label={w.organism} optional value={organism} onChange={setOrganism} />
    </EntryForm>
  )
}
