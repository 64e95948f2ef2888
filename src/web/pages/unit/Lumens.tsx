import type { Lumen, Material } from '#road/catalogue/attributes.ts'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

export interface LumenText {
  readonly id: number
  readonly diameter: string
  readonly length: string
  readonly openEnds: '' | '1' | '2'
  readonly material: Material | ''
  /** What the form does not ask and hands on as it came. */
  readonly rest: Pick<Lumen, 'channels' | 'flexible'>
}

export function textOfLumen(lumen: Lumen, place: number): LumenText {
  const { diameterMm, lengthMm, openEnds, material, ...rest } = lumen
  return {
    id: place + 1,
    diameter: String(diameterMm),
    length: String(lengthMm),
    openEnds: openEnds === undefined ? '' : openEnds === 1 ? '1' : '2',
    material: material ?? '',
    rest,
  }
}

export function lumenOf({ diameter, length, openEnds, material, rest }: LumenText): Lumen {
  return {
    ...rest,
    diameterMm: Number(diameter),
    lengthMm: Number(length),
    ...(openEnds === '' ? {} : { openEnds: openEnds === '1' ? 1 : 2 }),
    ...(material === '' ? {} : { material }),
  }
}

interface Props {
  readonly lumens: readonly LumenText[]
  readonly onChange: (lumens: readonly LumenText[]) => void
}

export function Lumens({ lumens, onChange }: Props) {
  const w = words.unit.register
  const fresh: LumenText = {
    id: (lumens.at(-1)?.id ?? 0) + 1,
    diameter: '',
    length: '',
    openEnds: '',
    material: '',
    rest: {},
  }
  return (
    <fieldset className="field">
      <legend>{w.lumens}</legend>
      {lumens.map((lumen, index) => (
        <OneLumen
          key={lumen.id}
          title={w.lumen(index + 1)}
          lumen={lumen}
          onChange={(next) => onChange(lumens.map((each) => (each.id === lumen.id ? next : each)))}
          onRemove={() => onChange(lumens.filter((each) => each.id !== lumen.id))}
        />
      ))}
      <div>
        <button type="button" onClick={() => onChange([...lumens, fresh])}>
          {w.addLumen}
        </button>
      </div>
    </fieldset>
  )
}

interface OneProps {
  readonly title: string
  readonly lumen: LumenText
  readonly onChange: (lumen: LumenText) => void
  readonly onRemove: () => void
}

function OneLumen({ title, lumen, onChange, onRemove }: OneProps) {
  const w = words.unit.register
  const { catalogue } = words
  const change = (part: Partial<LumenText>) => onChange({ ...lumen, ...part })
  const size = { type: 'number', min: 0, step: 'any' } as const
  return (
    <fieldset className="field">
      <legend className="small">{title}</legend>
      <div className="pair row">
        <TextField label={w.diameter} {...size} value={lumen.diameter} onChange={(diameter) => change({ diameter })} />
        <TextField label={w.length} {...size} value={lumen.length} onChange={(length) => change({ length })} />
        <SelectField
          label={catalogue.openEnds}
          value={lumen.openEnds}
          optional
          empty={catalogue.answers.open}
          options={[
            { value: '2', label: '2' },
            { value: '1', label: '1' },
          ]}
          onChange={(openEnds) => change({ openEnds })}
        />
        <SelectField
          label={catalogue.lumenMaterial}
          value={lumen.material}
          optional
          empty={catalogue.answers.open}
          options={optionsOf(catalogue.materials)}
          onChange={(material) => change({ material })}
        />
        <button type="button" onClick={onRemove}>
          {w.remove}
        </button>
      </div>
    </fieldset>
  )
}
