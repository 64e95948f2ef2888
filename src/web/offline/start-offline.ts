import type { QueryClient } from '@tanstack/react-query'
import { ask } from '../api/client.ts'
import { connectionStore } from './connection.ts'
import { keepAnswers } from './kept-answers.ts'
import { sendWhatIsDue } from './outbox.ts'

/** Begins to keep what is answered, and sees to it that all is asked anew when the service answers again. */
export function startOffline(client: QueryClient): void {
  keepAnswers(client)
  connectionStore.subscribe(() => {
    if (connectionStore.get() !== 'back') return
    void sendWhatIsDue()
    void client.invalidateQueries().then(() => {
      if (connectionStore.get() === 'back') connectionStore.set('answering')
    })
  })
  // A browser short of room does not throw away what is not sent yet. Without the right to ask for it, it may.
  void (navigator.storage as StorageManager | undefined)?.persist?.().catch(() => false)
  registerWorker()
}

/** With it the program opens without network. Browsers offer it to secure pages only: over TLS, or on the same computer. */
function registerWorker(): void {
  if (!import.meta.env.PROD) return
  if (!('serviceWorker' in navigator)) return void setTimeout(() => void fetchParts().catch(() => {}), partsAfterMillis)
  navigator.serviceWorker.register('/service-worker.js', { type: 'module' }).catch(() => {})
}

/** The first page is to be shown before. */
const partsAfterMillis = 5000

/**
 * Where there is no worker, the parts of the program are asked for once, one after the other: the browser's own cache then
 * has every room when the network goes.
 */
async function fetchParts(): Promise<void> {
  // Each has its content in its name, and is kept for a year.
  for (const part of await ask<string[]>('/parts.json')) {
    // oxlint-disable-next-line no-await-in-loop: what somebody waits for is not to stand behind it
    await (await fetch(part, { priority: 'low' })).blob()
  }
}
