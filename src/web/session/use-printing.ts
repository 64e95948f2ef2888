import { useSyncExternalStore } from 'react'
import { flushSync } from 'react-dom'

const onPaper = matchMedia('print')
const listeners = new Set<() => void>()
let isPrinting = onPaper.matches

function tell(next: boolean): void {
  if (next === isPrinting) return
  isPrinting = next
  // The browser takes the page as it stands when this returns.
  flushSync(() => listeners.forEach((listener) => listener()))
}

addEventListener('beforeprint', () => tell(true))
addEventListener('afterprint', () => tell(onPaper.matches))
onPaper.addEventListener('change', ({ matches }) => tell(matches))

function listen(listener: () => void): () => void {
  listeners.add(listener)
  return () => listeners.delete(listener)
}

/** Whether the page is being put on paper: what is folded on the screen stands there whole. */
export function usePrinting(): boolean {
  return useSyncExternalStore(listen, () => isPrinting)
}
