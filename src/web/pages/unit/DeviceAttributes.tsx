import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import { SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import './device.css'

type Device = Bodies['device-registered']
export type Attributes = Partial<
  Omit<
    Device,
    'device' | 'name' | 'contact' | 'steam' | 'lumens' | 'parts' | 'insulated' | 'optic' | 'singleUse' | 'lifeInUses'
  >
>
type Asked = keyof typeof words.catalogue.asked

const bears: readonly Asked[] = [
  'heatStable134',
  'moistureStable',
  'vacuumStable',
  'immersible',
  'cleanable',
  'ultrasoundAllowed',
  'washerAllowed',
]
const holds: readonly Asked[] = ['hasCellulose', 'hasLinen', 'hasLiquidOrOil', 'hasPowder', 'closedAirSpace']
const made: readonly Asked[] = ['battery', 'electronics', 'powerTool', 'implant', 'loaner']

interface Props {
  readonly attributes: Attributes
  readonly singleUse: boolean
  readonly onChange: (attributes: Attributes) => void
}

/** What the device bears, holds and is made of; folded away, and each answer may stay open. */
export function DeviceAttributes({ attributes, singleUse, onChange }: Props) {
  const w = words.catalogue
  const [partNames, setPartNames] = useState((attributes.partNames ?? []).join(', '))
  const [mass, setMass] = useState(attributes.massKg === undefined ? '' : String(attributes.massKg))
  const materials = attributes.materials ?? []
  const set = (part: Attributes) => onChange({ ...attributes, ...part })
  return (
    <>
      <Group title={w.bears} asked={bears} attributes={attributes} onChange={set} />
      <Group title={w.holds} asked={holds} attributes={attributes} onChange={set} />
      <details className="sheet">
        <summary>{w.made}</summary>
        <div className="stack">
          <div className="choices">
            {optionsOf(w.materials).map(({ value, label }) => (
              <Tick
                key={value}
                checked={materials.includes(value)}
                onChange={(on) =>
                  set({ materials: on ? [...materials, value] : materials.filter((each) => each !== value) })
                }
              >
                {label}
              </Tick>
            ))}
          </div>
          <Answers asked={made} attributes={attributes} onChange={set} />
          <TextField
            label={w.parts}
            hint={w.partsHint}
            optional
            value={partNames}
            onChange={(text) => {
              setPartNames(text)
              const names = text
                .split(',')
                .map((each) => each.trim())
                .filter((each) => each !== '')
              set({ partNames: names.length > 0 ? names : undefined })
            }}
          />
          <TextField
            label={w.mass}
            type="number"
            min={0}
            step="any"
            optional
            value={mass}
            onChange={(text) => {
              setMass(text)
              set({ massKg: Number(text) > 0 ? Number(text) : undefined })
            }}
          />
          {singleUse && (
            <TextField
              label={w.licence}
              optional
              value={attributes.licensedRoute ?? ''}
              onChange={(text) => set({ licensedRoute: text === '' ? undefined : text })}
            />
          )}
        </div>
      </details>
    </>
  )
}

interface GroupProps {
  readonly asked: readonly Asked[]
  readonly attributes: Attributes
  readonly onChange: (part: Attributes) => void
}

function Group({ title, ...rest }: GroupProps & { readonly title: string }) {
  return (
    <details className="sheet">
      <summary>{title}</summary>
      <Answers {...rest} />
    </details>
  )
}

function Answers({ asked, attributes, onChange }: GroupProps) {
  const w = words.catalogue
  const text = (value: boolean | undefined) => (value === undefined ? '' : value ? 'yes' : 'no')
  return (
    <div className="asked">
      {asked.map((name) => (
        <SelectField
          key={name}
          label={w.asked[name]}
          value={text(attributes[name])}
          optional
          empty={w.answers.open}
          options={[
            { value: 'yes', label: w.answers.yes },
            { value: 'no', label: w.answers.no },
          ]}
          onChange={(answer) => onChange({ [name]: answer === 'yes' ? true : answer === 'no' ? false : undefined })}
        />
      ))}
    </div>
  )
}
