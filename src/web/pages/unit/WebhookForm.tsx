import { useState } from 'react'
import { kindNames } from '#road/kinds.ts'
import { words } from '../../words/words.ts'

interface Props {
  readonly busy: boolean
  readonly send: (wanted: { readonly url: string; readonly kinds: readonly string[] }) => void
}

/** An address, and of what it is to be told. */
export function WebhookForm({ busy, send }: Props) {
  const w = words.webhooks
  const [url, setUrl] = useState('')
  const [kinds, setKinds] = useState<readonly string[]>(['*'])
  return (
    <form
      className="sheet stack"
      onSubmit={(event) => {
        event.preventDefault()
        send({ url, kinds })
        setUrl('')
      }}
    >
      <h2>{w.add}</h2>
      <label className="field">
        {w.url}
        <input type="url" required value={url} onChange={({ target }) => setUrl(target.value)} />
      </label>
      <label className="field">
        {w.kinds}
        <select
          multiple
          size={6}
          value={[...kinds]}
          onChange={({ target }) => setKinds([...target.selectedOptions].map(({ value }) => value))}
        >
          <option value="*">{w.all}</option>
          {kindNames.map((kind) => (
            <option key={kind} value={kind}>
              {words.unit.entryKinds[kind] ?? kind}
            </option>
          ))}
        </select>
        <span className="small soft">{w.kindsHint}</span>
      </label>
      <div>
        <button disabled={busy || url === '' || kinds.length === 0}>{w.addNow}</button>
      </div>
    </form>
  )
}
