import { useState } from 'react'
import type { LotOf, MakerRange } from '#road/consumables/entries.ts'
import { Instant } from '#road/instant.ts'
import { celsiusOf } from '../../components/celsius-of.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { slug } from '../../make-key.ts'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

type Range = Record<'dilutionFrom' | 'dilutionTo' | 'celsiusFrom' | 'celsiusTo', string>

const noRange: Range = { dilutionFrom: '', dilutionTo: '', celsiusFrom: '', celsiusTo: '' }

/** A lot as it is taken into use: what it is, its number and its end. */
export function OpenLotForm({ onKept }: { readonly onKept: () => void }) {
  const times = useTimes()
  const [of, setOf] = useState<LotOf | ''>('')
  const [name, setName] = useState('')
  const [number, setNumber] = useState('')
  const [days, setDays] = useState({ expires: '', discard: '', useFrom: '' })
  const [needsControl, setNeedsControl] = useState(false)
  const [range, setRange] = useState(noRange)
  const w = words.lots
  // A strip bottle has an entry of its own, with its trial.
  const { strengthStrip: _, ...kinds } = words.baths.lotKinds
  const moment = (day: string, clock: string) => Instant.safeParse(times.fromInput(`${day}T${clock}`)).data
  const expiresAt = moment(days.expires, '23:59')
  const discardAt = moment(days.discard, '23:59')
  const useFrom = moment(days.useFrom, '00:00')
  const makerRange = of === 'detergent' ? rangeOf(range) : undefined
  const complete = of !== '' && name !== '' && slug(number) !== '' && expiresAt !== undefined
  return (
    <EntryForm
      kind="lot-opened"
      body={
        complete
          ? {
              lot: `lot:${slug(number)}`,
              of,
              name,
              number,
              expiresAt,
              ...(discardAt === undefined ? {} : { discardAt }),
              ...(useFrom === undefined ? {} : { useFrom }),
              ...(needsControl ? { needsControl } : {}),
              ...(makerRange === undefined ? {} : { makerRange }),
            }
          : null
      }
      action={w.open}
      judged
      onKept={onKept}
    >
      <SelectField label={w.kind} value={of} options={optionsOf(kinds)} onChange={setOf} />
      <div className="pair">
        <TextField label={w.name} value={name} onChange={setName} />
        <TextField label={w.number} value={number} onChange={setNumber} />
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
        {(['dilutionFrom', 'dilutionTo', 'celsiusFrom', 'celsiusTo'] as const).map((each) => (
          <TextField
            key={each}
            label={w[each]}
            type="number"
            min={0}
            step="any"
            optional
            value={range[each]}
            onChange={(value) => onChange({ ...range, [each]: value })}
          />
        ))}
      </div>
    </fieldset>
  )
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
