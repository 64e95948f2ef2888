import { useState } from 'react'
import type { KeptEntry } from '#road/entry.ts'
import { words } from '../words/words.ts'
import { EntryForm } from './EntryForm.tsx'
import { TextField } from './Fields.tsx'

/** A wrong entry is never changed: a later one takes it out of the count, with a reason. */
export function WithdrawEntry({ entry }: { readonly entry: KeptEntry }) {
  const [why, setWhy] = useState('')
  return (
    <details className="no-print">
      <summary>{words.why.withdraw}</summary>
      <EntryForm
        kind="entry-withdrawn"
        body={why.length < 5 ? null : { why }}
        corrects={entry.id}
        action={words.why.withdraw}
      >
        <p className="soft">{words.why.withdrawSays}</p>
        <TextField label={words.why.withdrawWhy} long minLength={5} value={why} onChange={setWhy} />
      </EntryForm>
    </details>
  )
}
