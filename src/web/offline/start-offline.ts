import type { QueryClient } from '@tanstack/react-query'
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
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return
  navigator.serviceWorker.register('/service-worker.js', { type: 'module' }).catch(() => {})
}
