import { useState } from 'react'
import { useSearchParams } from 'react-router'
import type { EntryId } from '#road/entry.ts'
import type { Bodies } from '#road/kinds.ts'
import { subjectKey } from '#road/subject.ts'
import { EntryForm, type OnKept } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField, Tick } from '../../components/Fields.tsx'
import { GtinField } from '../../components/GtinField.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { type Attributes, DeviceAttributes } from './DeviceAttributes.tsx'
import { IntendedUses, textsOfUses, usesOf } from './IntendedUses.tsx'
import { Lumens, type LumenText, lumenOf, textOfLumen } from './Lumens.tsx'
import { MakerList } from './MakerList.tsx'
import { NameAndKey } from './NameAndKey.tsx'
import { useNameAndKey } from './use-name-and-key.ts'

type Device = Bodies['device-registered']

interface Props {
  readonly initial: Device | null
  readonly onKept: OnKept
  /** The registration that this one corrects. */
  readonly corrects?: EntryId | undefined
}

export function DeviceFields({ initial, onKept, corrects }: Props) {
  const ownKey = initial === null ? undefined : subjectKey(initial.device)
  const named = useNameAndKey(initial?.name, ownKey)
  const [contact, setContact] = useState<Device['contact'] | null>(initial?.contact ?? null)
  const [saidOfSteam, setSteam] = useState<Device['steam'] | null>(initial?.steam ?? null)
  const [parts, setParts] = useState(String(initial?.parts ?? 1))
  const [lumens, setLumens] = useState<readonly LumenText[]>((initial?.lumens ?? []).map(textOfLumen))
  const [insulated, setInsulated] = useState(initial?.insulated ?? false)
  const [optic, setOptic] = useState(initial?.optic ?? false)
  const [singleUse, setSingleUse] = useState(initial?.singleUse ?? false)
  const [life, setLife] = useState(initial?.lifeInUses === undefined ? '' : String(initial.lifeInUses))
  const [more, setMore] = useState<Attributes>(() => attributesOf(initial))
  const [search] = useSearchParams()
  const [gtin, setGtin] = useState(initial?.gtin ?? search.get('gtin') ?? '')
  const [uses, setUses] = useState(() => textsOfUses(initial?.uses))
  const listed = more.makerMethods
  // Once the maker's list is on file it answers for steam too.
  const steam =
    listed === undefined ? saidOfSteam : listed.some(({ method }) => method === 'steam') ? 'allowed' : 'barred'
  const w = words.unit.register
  // Under another key it is one more device.
  const corrected = named.keyText === ownKey ? corrects : undefined
  const complete = named.name !== '' && named.keyText !== '' && contact !== null && steam !== null
  return (
    <EntryForm
      kind="device-registered"
      body={
        complete
          ? {
              ...more,
              device: `device:${named.keyText}`,
              name: named.name,
              contact,
              steam,
              parts: Number(parts),
              lumens: lumens.map(lumenOf),
              insulated,
              optic,
              singleUse,
              ...(life === '' ? {} : { lifeInUses: Number(life) }),
              ...(gtin === '' ? {} : { gtin }),
            }
          : null
      }
      action={corrected === undefined ? w.device : w.changeOne}
      onKept={onKept}
      {...(corrected === undefined ? {} : { corrects: corrected })}
    >
      <NameAndKey {...named} />
      <ChoiceField label={w.contact} value={contact} options={optionsOf(words.unit.contact)} onChange={setContact} />
      <IntendedUses
        uses={uses}
        onChange={(next) => {
          setUses(next)
          setMore(without({ ...more, uses: next.length === 0 ? undefined : usesOf(next) }))
        }}
      />
      {listed === undefined && (
        <ChoiceField label={w.steam} value={steam} options={optionsOf(words.unit.steam)} onChange={setSteam} />
      )}
      <Lumens lumens={lumens} onChange={setLumens} />
      <div className="choices">
        <Tick checked={insulated} onChange={setInsulated}>
          {w.insulated}
        </Tick>
        <Tick checked={optic} onChange={setOptic}>
          {w.optic}
        </Tick>
        <Tick checked={singleUse} onChange={setSingleUse}>
          {w.singleUse}
        </Tick>
      </div>
      <div className="pair">
        <TextField label={w.parts} type="number" min={1} value={parts} onChange={setParts} />
        <TextField label={w.life} type="number" min={1} optional value={life} onChange={setLife} />
        <GtinField value={gtin} onChange={setGtin} />
      </div>
      <MakerList
        methods={listed}
        onChange={(makerMethods) => setMore(without({ ...more, makerMethods }))}
        others={more.makerOtherMethods}
        onOthers={(makerOtherMethods) => setMore(without({ ...more, makerOtherMethods }))}
      />
      <DeviceAttributes attributes={more} singleUse={singleUse} onChange={(next) => setMore(without(next))} />
    </EntryForm>
  )
}

/** Leaves out what is not stated, so that the entry does not carry it. */
function without(attributes: Attributes): Attributes {
  return Object.fromEntries(Object.entries(attributes).filter(([, value]) => value !== undefined))
}

function attributesOf(initial: Device | null): Attributes {
  if (initial === null) return {}
  const {
    device: _device,
    gtin: _gtin,
    name: _name,
    contact: _contact,
    steam: _steam,
    lumens: _lumens,
    parts: _parts,
    insulated: _insulated,
    optic: _optic,
    singleUse: _singleUse,
    lifeInUses: _life,
    ...attributes
  } = initial
  return attributes
}
