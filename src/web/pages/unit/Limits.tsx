import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { citeSource } from '#units/source.ts'
import type { PolicyAnswer } from '#service/api-types.ts'
import type { LimitValue } from '#road/unit/fold.ts'
import { policyQuery } from '../../api/queries.ts'
import { Dialog } from '../../components/Dialog.tsx'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField } from '../../components/Fields.tsx'
import { Folded } from '../../components/Folded.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { Table } from '../../components/Table.tsx'
import { Why } from '../../components/Why.tsx'
import { words } from '../../words/words.ts'

type Limit = PolicyAnswer['limits'][number]

/** Every limit that the rules hold against, with its source; each may be changed with a reason. */
export function Limits() {
  const w = words.unit
  const policy = useQuery(policyQuery)
  return (
    <section className="stack" aria-label={w.policy}>
      <Folded title={w.policy} says={policy.data && w.policyCount(policy.data.limits.length)}>
        <p className="soft">{w.policyLead}</p>
        <Loaded query={policy}>
          {({ limits }) => (
            <Table>
              <caption className="unseen">{w.policy}</caption>
              <thead>
                <tr>
                  <th scope="col">{w.limit}</th>
                  <th scope="col">{w.value}</th>
                  <th scope="col">{w.source}</th>
                  <th scope="col">{w.changed}</th>
                </tr>
              </thead>
              <tbody>
                {limits.map((limit) => (
                  <LimitRow key={limit.id} limit={limit} />
                ))}
              </tbody>
            </Table>
          )}
        </Loaded>
      </Folded>
    </section>
  )
}

function LimitRow({ limit }: { readonly limit: Limit }) {
  const [open, setOpen] = useState(false)
  const w = words.unit
  const said = (value: Limit['value']): string =>
    typeof value === 'boolean' ? (value ? w.yes : w.no) : `${value} ${limit.unit}`
  const value = said(limit.value)
  return (
    <tr>
      <th scope="row" style={{ fontWeight: 400 }}>
        {limit.title}
      </th>
      <td>
        <Why
          of={{
            title: limit.title,
            value,
            limit: `${said(limit.default)} (${w.asDelivered})`,
            source: limit.source,
            rule: limit.id,
            entry: limit.changed?.entry,
          }}
        >
          {value}
        </Why>
      </td>
      <td className="small soft">{citeSource(limit.source)}</td>
      <td>
        <div className="row">
          <span className="small">{limit.changed === null ? w.asDelivered : limit.changed.reason}</span>
          <button type="button" aria-label={w.changeTitle(limit.title)} onClick={() => setOpen(true)}>
            {w.change}
          </button>
        </div>
        {open && (
          <Dialog title={w.changeTitle(limit.title)} onClose={() => setOpen(false)}>
            <ChangeForm limit={limit} onDone={() => setOpen(false)} />
          </Dialog>
        )}
      </td>
    </tr>
  )
}

const yesOrNo = [
  { value: 'true', label: words.unit.yes },
  { value: 'false', label: words.unit.no },
]

interface ChangeProps {
  readonly limit: Limit
  readonly onDone: () => void
}

function ChangeForm({ limit, onDone }: ChangeProps) {
  const [text, setText] = useState(String(limit.value))
  const [reason, setReason] = useState('')
  const w = words.unit
  return (
    <EntryForm
      kind="limit-changed"
      body={
        reason.length < 10
          ? null
          : { policy: 'policy:unit', limit: limit.id, value: valueLike(limit.default, text), reason }
      }
      action={w.changeDo}
      judged
      onKept={onDone}
    >
      {typeof limit.default === 'boolean' ? (
        <ChoiceField label={w.newValue} value={text} onChange={setText} options={yesOrNo} />
      ) : (
        <TextField label={`${w.newValue} (${limit.unit})`} value={text} onChange={setText} />
      )}
      <TextField label={w.reason} long minLength={10} value={reason} onChange={setReason} />
    </EntryForm>
  )
}

/** What was typed, in the type that the limit has; what does not fit is sent as it is, for the rules to name. */
function valueLike(sample: LimitValue, text: string): LimitValue {
  if (typeof sample === 'number') return text.trim() !== '' && Number.isFinite(Number(text)) ? Number(text) : text
  if (typeof sample === 'boolean') return text === 'true' ? true : text === 'false' ? false : text
  return text
}
