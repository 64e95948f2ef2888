import { sites, type Site } from '#road/catalogue/attributes.ts'
import type { Bodies } from '#road/kinds.ts'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'

export interface UseText {
  readonly id: number
  readonly use: string
  readonly site: Site | ''
}

type Uses = NonNullable<Bodies['device-registered']['uses']>

export function textsOfUses(uses: Uses | undefined): readonly UseText[] {
  return (uses ?? []).map((each, place) => ({ id: place + 1, ...each }))
}

/** What is stated in full; a line that is not yet is left out, and the form says so by its required fields. */
export function usesOf(texts: readonly UseText[]): Uses {
  return texts.flatMap(({ use, site }) => (use === '' || site === '' ? [] : [{ use, site }]))
}

interface Props {
  readonly uses: readonly UseText[]
  readonly onChange: (uses: readonly UseText[]) => void
}

/** Where a device goes when it goes to more than one place; each place decides its own class of contact. */
export function IntendedUses({ uses, onChange }: Props) {
  const w = words.catalogue
  const change = (id: number, part: Partial<UseText>) =>
    onChange(uses.map((each) => (each.id === id ? { ...each, ...part } : each)))
  return (
    <fieldset className="field">
      <legend>{w.uses}</legend>
      <p className="soft small">{w.usesSay}</p>
      {uses.map((each) => (
        <div key={each.id} className="pair row" style={{ alignItems: 'end' }}>
          <TextField label={w.use} value={each.use} onChange={(use) => change(each.id, { use })} />
          <SelectField
            label={w.goesTo}
            value={each.site}
            options={sites.map((value) => ({ value, label: w.sites[value] }))}
            onChange={(site) => change(each.id, { site })}
          />
          <button type="button" onClick={() => onChange(uses.filter(({ id }) => id !== each.id))}>
            {words.unit.register.remove}
          </button>
        </div>
      ))}
      <div>
        <button
          type="button"
          onClick={() => onChange([...uses, { id: (uses.at(-1)?.id ?? 0) + 1, use: '', site: '' }])}
        >
          {w.addUse}
        </button>
      </div>
    </fieldset>
  )
}
