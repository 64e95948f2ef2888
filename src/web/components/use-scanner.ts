import { useQueryClient } from '@tanstack/react-query'
import { useEffect } from 'react'
import { useNavigate } from 'react-router'
import { findQuery } from '../api/queries.ts'
import { pathOf } from '../paths.ts'

export const findBoxId = 'find'

/** A scanner types faster than any hand: keys that follow within this time belong to one burst. */
const burstMillis = 50
const shortestCode = 4

/** Listens for a scanner wherever no field has the focus, and for "/" to go to the find box. */
export function useScanner(): void {
  const client = useQueryClient()
  const navigate = useNavigate()
  useEffect(() => {
    let burst = ''
    let last = 0
    const land = async (code: string) => {
      const found = await client.fetchQuery({ ...findQuery(code), staleTime: 0 }).catch(() => [])
      const hit = found.find((each) => each.exact) ?? (found.length === 1 ? found[0] : undefined)
      if (hit !== undefined) return navigate(pathOf(hit.subject))
      showInBox(code)
    }
    const onKey = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return
      const follows = event.timeStamp - last < burstMillis
      last = event.timeStamp
      if (event.key === 'Enter') {
        const code = burst
        burst = ''
        if (!follows || code.length < shortestCode) return
        event.preventDefault()
        void land(code)
      } else if (event.key === '/' && burst === '') {
        event.preventDefault()
        document.getElementById(findBoxId)?.focus()
      } else if (event.key.length === 1) burst = follows ? burst + event.key : event.key
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
  document.execCommand('insertText', false, code)
  box.form?.requestSubmit()
}
