import { useMutation } from '@tanstack/react-query'
import { type FormEvent, useCallback, useState } from 'react'
import type { IdentityReason } from '#road/people/identity.ts'
import { identifiesPatients } from '#road/people/rights.ts'
import type { IdentityFound } from '#service/api-types.ts'
import { post } from '../api/client.ts'
import { SelectField, TextField } from '../components/Fields.tsx'
import { ProblemNote } from '../components/ProblemNote.tsx'
import { SubjectLink } from '../components/SubjectLink.tsx'
import { words } from '../words/words.ts'
import { identityReasons } from './identity-reasons.ts'
import { useForgottenAtTheDoor, useMe } from './me.ts'

/** From a patient who rings to the cases: for those only who may see who the patients are. */
export function FindPatient() {
  const me = useMe()
  const [text, setText] = useState('')
  const [why, setWhy] = useState<IdentityReason>('followUp')
  const find = useMutation({
    mutationFn: () => post<{ found: readonly IdentityFound[] }>('/api/identities/search', { text, why }),
    gcTime: 0,
  })
  const { reset } = find
  useForgottenAtTheDoor(
    useCallback(() => {
      reset()
      setText('')
    }, [reset]),
  )
  if (me?.person?.roles.some((role) => identifiesPatients.includes(role)) !== true) return null
  const w = words.identity
  const submit = (event: FormEvent) => {
    event.preventDefault()
    find.mutate()
  }
  return (
    <details>
      <summary>{w.search.title}</summary>
      <form className="form" aria-label={w.search.title} onSubmit={submit}>
        <TextField label={w.search.text} value={text} onChange={setText} hint={w.search.hint} minLength={2} />
        <SelectField label={w.why} value={why} onChange={setWhy} options={identityReasons} />
        <p className="soft small">{w.lead}</p>
        <div>
          <button type="submit" disabled={find.isPending}>
            {w.search.go}
          </button>
        </div>
      </form>
      {find.error !== null && <ProblemNote error={find.error} />}
      <output>{find.data?.found.length === 0 ? w.search.none : ''}</output>
      <ul className="lines">
        {find.data?.found.map(({ case: id, identity }) => (
          <li key={id}>
            <div className="grow">
              <strong>{identity.name ?? w.empty}</strong>{' '}
              <span className="soft">
                {[identity.hospitalNumber, identity.bornOn, identity.phone].filter(Boolean).join(', ')}
              </span>
            </div>
            <SubjectLink id={id} />
          </li>
        ))}
      </ul>
    </details>
  )
}
