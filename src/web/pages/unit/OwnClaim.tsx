import { useState } from 'react'
import { type LumenClaim, publicClaims } from '#road/catalogue/route/claims.ts'
import { materials } from '#road/catalogue/attributes.ts'
import { Tick } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'

interface Props {
  /** The names that the claims of this machine have already. */
  readonly taken: readonly string[]
  readonly onAdd: (claim: LumenClaim) => void
}

const empty = { id: '', diameter: '', length: '', channels: '1', mass: '' }

/** A claim that only the papers of this machine make. Its fields are not required: the form is sent without one. */
export function OwnClaim({ taken, onAdd }: Props) {
  const [text, setText] = useState(empty)
  const [chosen, setChosen] = useState<readonly LumenClaim['materials'][number][]>([])
  const [flexible, setFlexible] = useState(false)
  const w = words.unit.register
  const id = text.id.trim()
  const free = id !== '' && !taken.includes(id) && publicClaims.every((claim) => claim.id !== id)
  const channels = Number(text.channels)
  const measures = [text.diameter, text.length, ...(text.mass === '' ? [] : [text.mass])]
  const complete =
    free && measures.every((measure) => Number(measure) > 0) && Number.isInteger(channels) && channels > 0
  const add = () => {
    onAdd({
      id,
      materials: [...chosen],
      minDiameterMm: Number(text.diameter),
      maxLengthMm: Number(text.length),
      maxChannels: channels,
      flexible,
      ...(text.mass === '' ? {} : { maxLoadKg: Number(text.mass) }),
    })
    setText(empty)
    setChosen([])
    setFlexible(false)
  }
  const fields = [
    ['id', w.ownClaimId, 'text'],
    ['diameter', w.diameter, 'number'],
    ['length', w.length, 'number'],
    ['channels', w.ownChannels, 'number'],
    ['mass', w.ownMass, 'number'],
  ] as const
  return (
    <details>
      <summary>{w.ownClaim}</summary>
      <div className="stack">
        <div className="pair">
          {fields.map(([name, label, type]) => (
            <label key={name} className="field">
              {label}
              <input
                type={type}
                min={0}
                step="any"
                maxLength={40}
                value={text[name]}
                onChange={({ target }) => setText({ ...text, [name]: target.value })}
              />
            </label>
          ))}
        </div>
        <fieldset className="field choices">
          <legend>{w.ownMaterial}</legend>
          {materials.map((value) => (
            <Tick
              key={value}
              checked={chosen.includes(value)}
              onChange={(on) => setChosen(on ? [...chosen, value] : chosen.filter((each) => each !== value))}
            >
              {words.catalogue.materials[value]}
            </Tick>
          ))}
          <Tick checked={flexible} onChange={setFlexible}>
            {w.ownFlexible}
          </Tick>
        </fieldset>
        <div>
          <button type="button" disabled={!complete || chosen.length === 0} onClick={add}>
            {w.addClaim}
          </button>
        </div>
      </div>
    </details>
  )
}
