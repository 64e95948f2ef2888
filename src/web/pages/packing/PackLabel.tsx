import { useMutation, useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { labelStock, offeredStocks, readStock } from '#road/packing/labels/stock.ts'
import type { RoundKnown } from '#road/round.ts'
import { subjectKey } from '#road/subject.ts'
import { ask } from '../../api/client.ts'
import { SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { useLimit } from '../../components/use-limit.ts'
import { words } from '../../words/words.ts'

const ownSize = 'own'

/** The label of the pack as it stands now: to be looked at, saved for any printer, or sent to the printer of the unit. */
export function PackLabel({ round }: { readonly round: RoundKnown }) {
  const usual = useLimit(labelStock.id)
  const [chosen, setChosen] = useState('')
  const [own, setOwn] = useState('')
  const [bars, setBars] = useState(false)
  const { data: printer } = useQuery({
    queryKey: ['label-printer'],
    queryFn: () => ask<{ readonly isSet: boolean }>('/api/label-printer'),
    staleTime: Infinity,
  })
  const w = words.wash.packing.labels
  const stock = chosen === ownSize ? own : chosen || String(usual?.value ?? labelStock.value)
  const size = readStock(stock)
  const query = new URLSearchParams({ stock, bars: bars ? 'yes' : 'no' })
  const path = `/api/rounds/${encodeURIComponent(round.id)}/label`
  const send = useMutation({
    mutationFn: () =>
      ask(`${path}/print`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ stock, bars: bars ? 'yes' : 'no' }),
      }),
  })
  if (round.sealed === null) return null
  return (
    <section className="sheet stack" aria-label={words.wash.packing.label}>
      <h2>{words.wash.packing.label}</h2>
      {/* The picture says it to eyes alone, and a label that is torn is typed. */}
      <p className="key">{subjectKey(round.id)}</p>
      {size !== undefined && <Preview key={`${path}?${query}`} address={`${path}?as=svg&${query}`} />}
      <div className="pair">
        <SelectField
          label={w.size}
          value={chosen === '' ? stock : chosen}
          options={[
            ...offeredStocks.map((each) => ({ value: each, label: w.mm(each) })),
            { value: ownSize, label: w.own },
          ]}
          onChange={setChosen}
        />
        {chosen === ownSize && <TextField label={w.ownSize} value={own} onChange={setOwn} hint={w.ownHint} />}
      </div>
      <Tick checked={bars} onChange={setBars}>
        {w.bars}
      </Tick>
      {size !== undefined && (
        <div className="row">
          <a className="button" href={`${path}?as=pdf&${query}`} download>
            {w.pdf}
          </a>
          <a className="button" href={`${path}?as=zpl&${query}`} download>
            {w.zpl}
          </a>
          {printer?.isSet === true && (
            <button type="button" disabled={send.isPending} onClick={() => send.mutate()}>
              {w.print}
            </button>
          )}
        </div>
      )}
      <output>{send.isSuccess ? w.sent : ''}</output>
      {send.error !== null && <ProblemNote error={send.error} />}
    </section>
  )
}

/** The picture of the label in its own proportions; a label that cannot be made is told in words. */
function Preview({ address }: { readonly address: string }) {
  const [failed, setFailed] = useState(false)
  const w = words.wash.packing.labels
  if (failed) return <p className="problem">{w.tooSmall}</p>
  return (
    <img
      src={address}
      alt={w.preview}
      style={{ width: '100%', maxWidth: '26rem', border: '1px solid var(--rule)' }}
      onError={() => setFailed(true)}
    />
  )
}
