import { useQueryClient } from '@tanstack/react-query'
import { type FormEvent, type KeyboardEvent, useState } from 'react'
import { useNavigate } from 'react-router'
import type { ScanAnswer } from '#road/scanning/scan-answer.ts'
import { scanQuery } from '../api/queries.ts'
import { pathOf } from '../paths.ts'
import { words } from '../words/words.ts'
import { Dialog } from './Dialog.tsx'
import { part } from './part.tsx'
import { onlyHit } from './only-hit.ts'
import { findBoxId, isSeparatorKey, shownSeparator } from './use-scanner.ts'

// Shown when a code names several things, or none: the first screen does without.
const ScanCamera = part(async () => (await import('./ScanCamera.tsx')).ScanCamera)
const ScanResult = part(async () => (await import('./ScanResult.tsx')).ScanResult, <p>{words.loading}</p>)

/** A browser gives the camera to pages that came by TLS or from this computer alone. */
const canWatch = 'mediaDevices' in navigator

/** What was typed or scanned decides where one lands; when several fit, the person chooses. */
export function FindBox() {
  const [text, setText] = useState('')
  const [shown, setShown] = useState<{ readonly text: string; readonly answer: ScanAnswer }>()
  const [watching, setWatching] = useState(false)
  const client = useQueryClient()
  const navigate = useNavigate()
  const leave = () => {
    setShown(undefined)
    setText('')
  }
  const go = (to: ScanAnswer['found'][number]) => {
    leave()
    void navigate(pathOf(to.subject))
  }
  const find = async (sent: string) => {
    const asked = sent.trim()
    if (asked === '') return
    const answer = await client
      .fetchQuery({ ...scanQuery(asked), staleTime: 0 })
      .catch((): ScanAnswer => ({ read: { is: 'text', symbol: null, text: asked }, found: [], offers: [] }))
    const only = onlyHit(answer)
    if (only === undefined) setShown({ text: asked, answer })
    else go(only)
  }
  const submit = (event: FormEvent) => {
    event.preventDefault()
    void find(text)
  }
  const onCode = (code: string) => {
    setWatching(false)
    const seen = code.replaceAll('\u001d', shownSeparator)
    setText(seen)
    void find(seen)
  }
  // A scanner sends the separator as a control key, which a field would drop: what follows it would run into what comes before.
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (!isSeparatorKey(event)) return
    event.preventDefault()
    document.execCommand('insertText', false, shownSeparator)
  }
  return (
    <search>
      <form style={{ display: 'flex', gap: '0.5rem' }} onSubmit={submit}>
        <input
          id={findBoxId}
          type="search"
          enterKeyHint="search"
          aria-label={words.shell.findLabel}
          aria-keyshortcuts="/"
          placeholder={words.shell.findHint}
          value={text}
          onKeyDown={onKeyDown}
          onChange={(event) => setText(event.target.value.replaceAll('\u001d', shownSeparator))}
        />
        {canWatch && (
          <button
            type="button"
            style={{ flex: 'none', paddingInline: '0.5rem' }}
            aria-label={words.scan.camera.open}
            onClick={() => setWatching(true)}
          >
            {words.scan.camera.short}
          </button>
        )}
        {watching && <ScanCamera onCode={onCode} onClose={() => setWatching(false)} />}
        {shown !== undefined && (
          <Dialog title={words.shell.found} onClose={() => setShown(undefined)}>
            <ScanResult {...shown} onGo={go} onLeave={leave} />
          </Dialog>
        )}
      </form>
    </search>
  )
}
