import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { Fragment, type FormEvent, useCallback, useState } from 'react'
import type { IdentityReason, PatientIdentity } from '#road/people/identity.ts'
import type { SubjectId } from '#road/subject.ts'
import { identifiesPatients, namesCases } from '#road/people/rights.ts'
import type { IdentityState } from '#service/api-types.ts'
import { ask, post, put } from '../api/client.ts'
import { Dialog } from '../components/Dialog.tsx'
import { SelectField, TextField } from '../components/Fields.tsx'
import { ProblemNote } from '../components/ProblemNote.tsx'
import { useTimes } from '../session/unit.ts'
import { words } from '../words/words.ts'
import { identityReasons } from './identity-reasons.ts'
import { useForgottenAtTheDoor, useMe } from './me.ts'

type Case = SubjectId<'case'>

const fields = ['name', 'hospitalNumber', 'bornOn', 'phone'] as const
type Filled = Record<(typeof fields)[number], string>
const nothing: Filled = { name: '', hospitalNumber: '', bornOn: '', phone: '' }

/**
 * Who the patient of a case is. Not there at all where the unit keeps no identities and none was ever kept, or to whom it is
 * no business of.
 */
export function IdentityOfCase({ of, why: usual = 'care' }: { readonly of: Case; readonly why?: IdentityReason }) {
  const me = useMe()
  const roles = me?.person?.roles ?? []
  const mayName = namesCases.some((role) => roles.includes(role))
  const maySee = identifiesPatients.some((role) => roles.includes(role))
  const state = useQuery({
    queryKey: ['identity', of],
    queryFn: () => ask<IdentityState>(pathOf(of)),
    enabled: mayName || maySee,
  })
  if (state.error !== null && state.data === undefined)
    return <ProblemNote error={state.error} retry={() => void state.refetch()} />
  if (state.data === undefined || !(state.data.unitKeeps || state.data.is === 'kept')) return null
  // Of another case it is another panel: what was shown or typed for one must never stand under the next.
  return (
    <Panel
      key={of}
      of={of}
      usual={usual}
      state={state.data}
      mayName={mayName && state.data.unitKeeps}
      maySee={maySee}
    />
  )
}

interface PanelProps {
  readonly of: Case
  readonly usual: IdentityReason
  readonly state: IdentityState
  readonly mayName: boolean
  readonly maySee: boolean
}

function Panel({ of, usual, state, mayName, maySee }: PanelProps) {
  const w = words.identity
  const times = useTimes()
  const [why, setWhy] = useState<IdentityReason>(usual)
  const [open, setOpen] = useState<'write' | 'erase' | null>(null)
  // Held by this page alone, and gone with it: no cache keeps it.
  const see = useMutation({
    mutationFn: () => post<{ identity: PatientIdentity }>(`${pathOf(of)}/see`, { why }),
    gcTime: 0,
  })
  const { reset } = see
  useForgottenAtTheDoor(
    useCallback(() => {
      reset()
      setOpen(null)
    }, [reset]),
  )
  const kept = state.is === 'kept'
  const says =
    state.is === 'none' || state.at === null
      ? w.none
      : state.is === 'erased'
        ? w.erasedAt(times.moment(state.at))
        : w.keptAt(times.moment(state.at))
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <p className="soft">
        {says} {w.lead}
      </p>
      {maySee && see.data !== undefined && <Shown identity={see.data.identity} />}
      {maySee && kept && see.data === undefined && (
        <SelectField label={w.why} value={why} onChange={setWhy} options={identityReasons} />
      )}
      <div className="row">
        {maySee && kept && see.data === undefined && (
          <button type="button" disabled={see.isPending} onClick={() => see.mutate()}>
            {w.show}
          </button>
        )}
        {see.data !== undefined && (
          <button type="button" onClick={() => see.reset()}>
            {w.hide}
          </button>
        )}
        {mayName && (
          <button type="button" onClick={() => setOpen('write')}>
            {kept ? w.writeAnew : w.write}
          </button>
        )}
        {maySee && kept && (
          <button type="button" className="quiet" onClick={() => setOpen('erase')}>
            {w.erase}
          </button>
        )}
      </div>
      {see.error !== null && <ProblemNote error={see.error} />}
      {open === 'write' && (
        <WriteDialog
          of={of}
          why={kept ? 'correction' : usual}
          anew={kept}
          onClose={() => {
            setOpen(null)
            see.reset()
          }}
        />
      )}
      {open === 'erase' && (
        <EraseDialog
          of={of}
          onClose={() => {
            setOpen(null)
            see.reset()
          }}
        />
      )}
    </section>
  )
}

function Shown({ identity }: { readonly identity: PatientIdentity }) {
  const w = words.identity
  return (
    <dl className="facts">
      {fields.map((field) => (
        <Fragment key={field}>
          <dt>{w[field]}</dt>
          <dd>{identity[field] ?? w.empty}</dd>
        </Fragment>
      ))}
    </dl>
  )
}

interface DialogProps {
  readonly of: Case
  readonly onClose: () => void
}

interface WriteProps extends DialogProps {
  readonly why: IdentityReason
  readonly anew: boolean
}

function WriteDialog({ of, why, anew, onClose }: WriteProps) {
  const w = words.identity
  const [filled, setFilled] = useState(nothing)
  const change = useChange(of, onClose, () => {
    const identity = Object.fromEntries(Object.entries(filled).filter(([, value]) => value.trim() !== ''))
    return put(pathOf(of), { identity, why })
  })
  const submit = (event: FormEvent) => {
    event.preventDefault()
    change.mutate()
  }
  return (
    <Dialog title={w.write} onClose={onClose}>
      <form className="form" aria-label={w.write} onSubmit={submit}>
        {anew && <p className="soft">{w.anewSays}</p>}
        {fields.map((field) => (
          <TextField
            key={field}
            label={w[field]}
            value={filled[field]}
            onChange={(value) => setFilled({ ...filled, [field]: value })}
            type={field === 'bornOn' ? 'date' : 'text'}
            optional
          />
        ))}
        <div>
          <button type="submit" className="main large" disabled={change.isPending}>
            {w.keep}
          </button>
        </div>
        {change.error !== null && <ProblemNote error={change.error} />}
      </form>
    </Dialog>
  )
}

function EraseDialog({ of, onClose }: DialogProps) {
  const w = words.identity
  const [why, setWhy] = useState<IdentityReason>('patientAsked')
  const change = useChange(of, onClose, () => post(`${pathOf(of)}/erase`, { why }))
  return (
    <Dialog title={w.eraseTitle} onClose={onClose}>
      <p>{w.eraseSays}</p>
      <SelectField label={w.why} value={why} onChange={setWhy} options={identityReasons} />
      <div>
        <button type="button" className="main large" disabled={change.isPending} onClick={() => change.mutate()}>
          {w.eraseYes}
        </button>
      </div>
      {change.error !== null && <ProblemNote error={change.error} />}
    </Dialog>
  )
}

function useChange(of: Case, onClose: () => void, mutationFn: () => Promise<unknown>) {
  const client = useQueryClient()
  return useMutation({
    mutationFn,
    async onSuccess() {
      onClose()
      await client.invalidateQueries({ queryKey: ['identity', of] })
    },
  })
}

function pathOf(of: Case): string {
  return `/api/cases/${encodeURIComponent(of)}/identity`
}
