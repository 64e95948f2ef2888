import { discardWaiting, outboxStore, sendAllWaiting, signWaiting } from '../outbox/outbox.ts'
import { useTimes } from '../session/unit.ts'
import { useStore } from '../session/use-store.ts'
import { words } from '../words/words.ts'
import { Dialog } from './Dialog.tsx'

export function OutboxDialog({ onClose }: { readonly onClose: () => void }) {
  const waiting = useStore(outboxStore)
  const times = useTimes()
  return (
    <Dialog title={words.outbox.title} onClose={onClose}>
      <p>{words.outbox.explain}</p>
      <ul className="lines">
        {waiting.map((each) => {
          const { entry, title, refused, unsigned = false } = each
          return (
            <li key={entry.id}>
              <div className="grow">
                <strong>{title}</strong>, {times.moment(entry.happenedAt)}
                <br />
                <span className="small">
                  {refused === null ? words.outbox.waiting : `${words.outbox.refused}: ${refused}`}
                </span>
              </div>
              {unsigned && (
                <button type="button" className="main" onClick={() => void signWaiting(each)}>
                  {words.signIn.signNow}
                </button>
              )}
              {refused !== null && (
                <button type="button" onClick={() => discardWaiting(entry.id)}>
                  {words.outbox.discard}
                </button>
              )}
            </li>
          )
        })}
      </ul>
      <button type="button" className="main" onClick={() => void sendAllWaiting()}>
        {words.outbox.again}
      </button>
    </Dialog>
  )
}
