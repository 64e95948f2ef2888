import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import { ChoiceField, TextField } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

type Cultured = Bodies['wound-cultured']

/** What the laboratory says of a sample, from a wound or from the unit. */
export interface CultureTold {
  readonly culture: Cultured['culture'] | null
  readonly acidFast: Cultured['acidFast']
  readonly organism: string
}

/** The answers and how they are changed; `culture` is what stands at first, null when it must be said. */
export function useCulture(culture: CultureTold['culture']) {
  return useState<CultureTold>({ culture, acidFast: 'notDone', organism: '' })
}

/** The answers as an entry has them; null while the culture is not said. */
export function cultureBody({ culture, acidFast, organism }: CultureTold) {
  return culture === null ? null : { culture, acidFast, ...(organism === '' ? {} : { organism }) }
}

interface Props {
  readonly value: CultureTold
  readonly onChange: (value: CultureTold) => void
}

export function CultureFields({ value, onChange }: Props) {
  const { wound } = words.theatre
  return (
    <>
      <ChoiceField
        label={wound.culture}
        value={value.culture}
        options={optionsOf(words.theatre.cultures)}
        onChange={(culture) => onChange({ ...value, culture })}
      />
      <ChoiceField
        label={wound.acidFast}
        value={value.acidFast}
        options={optionsOf(words.theatre.acidFast)}
        onChange={(acidFast) => onChange({ ...value, acidFast })}
      />
      <TextField
        label={wound.organism}
        optional
        value={value.organism}
        onChange={(organism) => onChange({ ...value, organism })}
      />
    </>
  )
}
