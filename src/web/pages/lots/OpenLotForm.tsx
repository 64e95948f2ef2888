import { useState } from 'react'
import { useSearchParams } from 'react-router'
import type { Incubation, LotOf, MakerRange } from '#road/consumables/entries.ts'
import { Instant } from '#road/instant.ts'
import { celsiusOf } from '../../components/celsius-of.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { GtinField } from '../../components/GtinField.tsx'
import { useNewLot } from '../../components/use-new-lot.ts'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { MakerField } from '../baths/ContainerFields.tsx'

type Range = Record<'dilutionFrom' | 'dilutionTo' | 'celsiusFrom' | 'celsiusTo', string>

const noRange: Range = { dilutionFrom: '', dilutionTo: '', celsiusFrom: '', celsiusTo: '' }

type Growing = Record<'hours' | 'from' | 'to' | 'reader', string>

const noTime: Growing = { hours: '', from: '', to: '', reader: '' }

/** A lot as it is taken into use: what it is, its number and its end. */
export function OpenLotForm({ onKept }: { readonly onKept: () => void }) {
  const times = useTimes()
  const [of, setOf] = useState<LotOf | ''>('')
  const [name, setName] = useState('')
  // What a scan of its code said, where that led here.
  const [search] = useSearchParams()
  const [number, setNumber] = useState(search.get('number') ?? '')
  const [gtin, setGtin] = useState(search.get('gtin') ?? '')
  const [maker, setMaker] = useState('')
  const { id, lacking } = useNewLot({ of: of === '' ? 'other' : of, number, maker })
  const [days, setDays] = useState({ expires: search.get('expires') ?? '', discard: '', useFrom: '' })
  const [needsControl, setNeedsControl] = useState(false)
  const [range, setRange] = useState(noRange)
  const [growing, setGrowing] = useState(noTime)
  const w = words.lots
  // A strip bottle has an entry of its own, with its trial.
  const { strengthStrip: _, ...kinds } = words.baths.lotKinds
  const moment = (day: string, clock: string) => Instant.safeParse(times.fromInput(`${day}T${clock}`)).data
  const expiresAt = moment(days.expires, '23:59')
  const discardAt = moment(days.discard, '23:59')
  const useFrom = moment(days.useFrom, '00:00')
  const makerRange = of === 'detergent' ? rangeOf(range) : undefined
  const incubation = of === 'biologicalIndicator' ? incubationOf(growing) : undefined
  const complete = of !== '' && name !== '' && id !== undefined && expiresAt !== undefined
  return (
    <EntryForm
      kind="lot-opened"
      body={
        complete
          ? {
              lot: id,
              of,
              name,
              number,
              ...(maker.trim() === '' ? {} : { maker: maker.trim() }),
              ...(gtin === '' ? {} : { gtin }),
              expiresAt,
              ...(discardAt === undefined ? {} : { discardAt }),
              ...(useFrom === undefined ? {} : { useFrom }),
              ...(needsControl ? { needsControl } : {}),
              ...(makerRange === undefined ? {} : { makerRange }),
              ...(incubation === undefined ? {} : { incubation }),
            }
          : null
      }
      action={w.open}
      judged
      lacking={of === '' ? undefined : lacking}
      onKept={onKept}
    >
      <SelectField label={w.kind} value={of} options={optionsOf(kinds)} onChange={setOf} />
      <div className="pair">
        <TextField label={w.name} value={name} onChange={setName} />
        <TextField label={w.number} value={number} onChange={setNumber} />
        <MakerField value={maker} onChange={setMaker} />
        <GtinField value={gtin} onChange={setGtin} />
        {(['expires', 'discard', 'useFrom'] as const).map((each) => (
          <TextField
            key={each}
            label={w[each]}
            type="date"
            optional={each !== 'expires'}
            value={days[each]}
            onChange={(day) => setDays({ ...days, [each]: day })}
          />
        ))}
      </div>
      {of === 'detergent' && <RangeFields range={range} onChange={setRange} />}
      {of === 'biologicalIndicator' && <IncubationFields growing={growing} onChange={setGrowing} />}
      <Tick checked={needsControl} onChange={setNeedsControl}>
        {w.needsControl}
      </Tick>
    </EntryForm>
  )
}

function RangeFields({ range, onChange }: { readonly range: Range; readonly onChange: (range: Range) => void }) {
  const w = words.lots
  return (
    <fieldset className="field">
      <legend>{w.range}</legend>
      <div className="pair">
        <Figures
          of={['dilutionFrom', 'dilutionTo', 'celsiusFrom', 'celsiusTo']}
          labels={w}
          values={range}
          onChange={onChange}
        />
      </div>
    </fieldset>
  )
}

interface GrowingProps {
  readonly growing: Growing
  readonly onChange: (growing: Growing) => void
}

function IncubationFields({ growing, onChange }: GrowingProps) {
  const w = words.lots
  const labels = { hours: w.incubationHours, from: w.incubatorFrom, to: w.incubatorTo } as const
  return (
    <fieldset className="field">
      <legend>{w.incubation}</legend>
      <p className="soft">{w.incubationSays}</p>
      <div className="pair">
        <Figures of={['hours', 'from', 'to']} labels={labels} values={growing} onChange={onChange} />
        <TextField
          label={w.reader}
          optional
          value={growing.reader}
          onChange={(reader) => onChange({ ...growing, reader })}
        />
      </div>
    </fieldset>
  )
}

interface FiguresProps<Key extends string, Values extends Readonly<Record<Key, string>>> {
  readonly of: readonly Key[]
  readonly labels: Readonly<Record<Key, string>>
  readonly values: Values
  readonly onChange: (values: Values) => void
}

/** Figures that may be left out, as the paper of the maker gives them. */
function Figures<Key extends string, Values extends Readonly<Record<Key, string>>>({
  of,
  labels,
  values,
  onChange,
}: FiguresProps<Key, Values>) {
  return of.map((each) => (
    <TextField
      key={each}
      label={labels[each]}
      type="number"
      min={0}
      step="any"
      optional
      value={values[each]}
      onChange={(value) => onChange({ ...values, [each]: value })}
    />
  ))
}

/** The incubation is known when its hours are; its warmth when both ends are. */
function incubationOf({ hours, from, to, reader }: Growing): Incubation | undefined {
  if (!(Number(hours) > 0)) return undefined
  const [cold, hot] = [celsiusOf(from), celsiusOf(to)]
  return {
    hours: Number(hours),
    ...(cold !== undefined && hot !== undefined && hot >= cold ? { temperatureC: { from: cold, to: hot } } : {}),
    ...(reader.trim() === '' ? {} : { reader: reader.trim() }),
  }
}

/** A range is known when both of its ends are. */
function rangeOf(range: Range): MakerRange | undefined {
  const dilution = { from: Number(range.dilutionFrom), to: Number(range.dilutionTo) }
  const [from, to] = [celsiusOf(range.celsiusFrom), celsiusOf(range.celsiusTo)]
  const known = {
    ...(dilution.from > 0 && dilution.to >= dilution.from ? { dilutionMlPerLitre: dilution } : {}),
    ...(from !== undefined && to !== undefined && to >= from ? { temperatureC: { from, to } } : {}),
  }
  return Object.keys(known).length === 0 ? undefined : known
}
