import { useQueryClient } from '@tanstack/react-query'
import { useEffect } from 'react'
import { useNavigate } from 'react-router'
import { scanQuery } from '../api/queries.ts'
import { pathOf } from '../paths.ts'
import { onlyHit } from './only-hit.ts'

export const findBoxId = 'find'

/** A scanner types faster than any hand: keys that follow within this time belong to one burst. */
const burstMillis = 50
const shortestCode = 4

/** How the separator of GS1 codes is shown in a field, and read again: it has no letter of its own. */
export const shownSeparator = '\u241d'

/** Scanners that act as keyboards send the separator (0x1D) as Ctrl and a square bracket, or as a key without a letter. */
export function isSeparatorKey(event: Pick<KeyboardEvent, 'ctrlKey' | 'altKey' | 'key' | 'code'>): boolean {
  if (event.key === '\u001d') return true
  return event.ctrlKey && !event.altKey && (event.key === ']' || event.code === 'BracketRight')
}

/** Listens for a scanner wherever no field has the focus, and for "/" to go to the find box. */
export function useScanner(): void {
  const client = useQueryClient()
  const navigate = useNavigate()
  useEffect(() => {
    let burst = ''
    let last = 0
    const land = async (code: string) => {
      const answer = await client.fetchQuery({ ...scanQuery(code), staleTime: 0 }).catch(() => undefined)
      const hit = answer && onlyHit(answer)
      if (hit !== undefined) return navigate(pathOf(hit.subject))
      showInBox(code)
    }
    const onKey = (event: KeyboardEvent) => {
      // Pressed with Ctrl, it belongs to what the scanner types; the key itself says nothing.
      if (event.key === 'Control' || event.key === 'Shift') return
      const letter = isSeparatorKey(event) ? shownSeparator : event.key
      if (isTyping(event.target)) return
      if (letter !== shownSeparator && (event.ctrlKey || event.metaKey || event.altKey)) return
      const follows = event.timeStamp - last < burstMillis
      last = event.timeStamp
      if (letter === 'Enter') {
        const code = burst
        burst = ''
        if (!follows || code.length < shortestCode) return
        event.preventDefault()
        void land(code)
      } else if (letter === '/' && (burst === '' || !follows)) {
        event.preventDefault()
        document.getElementById(findBoxId)?.focus()
      } else if (letter.length === 1) burst = follows ? burst + letter : letter
    }
    addEventListener('keydown', onKey)
    return () => removeEventListener('keydown', onKey)
  }, [client, navigate])
}

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.matches('input, textarea, select, [contenteditable]')
}

/** What is not known is put into the find box as if it had been typed, where the person can mend it. */
function showInBox(code: string): void {
  const box = document.getElementById(findBoxId)
  if (!(box instanceof HTMLInputElement)) return
  box.focus()
  box.select()
  document.execCommand('insertText', false, code)
  box.form?.requestSubmit()
}
