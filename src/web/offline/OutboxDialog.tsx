import { type FormEvent, useState } from 'react'
import { parseSubject } from '#road/subject.ts'
import { Dialog } from '../components/Dialog.tsx'
import { TextField } from '../components/Fields.tsx'
import { Findings } from '../components/Findings.tsx'
import { Named, useNames } from '../components/Named.tsx'
import { ProblemNote } from '../components/ProblemNote.tsx'
import { WhoNeeded } from '../components/WhoNeeded.tsx'
import { ProblemError } from '../api/client.ts'
import { useTimes } from '../session/unit.ts'
import { useStore } from '../session/use-store.ts'
import { whoStore } from '../session/who.ts'
import { useMe } from '../sign-in/me.ts'
import { words } from '../words/words.ts'
import { CorrectEntry } from './CorrectEntry.tsx'
import {
  noteFound,
  outboxStore,
  sendAllWaiting,
  sendAnew,
  signWaiting,
  type Standing,
  takeOut,
  type Waiting,
} from './outbox.ts'

const mostShown = 20

/** What is not in the record yet, what it refused, and what it found later. Where people sign in, each sees their own. */
export function OutboxDialog({ onClose }: { readonly onClose: () => void }) {
  const all = useStore(outboxStore)
  const who = useStore(whoStore)
  const asked = useMe()?.signIn === 'required'
  const [own, others] = partition(all, ({ entry }) => !asked || entry.by === who)
  const w = words.outbox
  const waiting = own.filter(({ standing }) => ['toSend', 'author', 'unsigned'].includes(standing.at))
  const of = <At extends Standing['at']>(at: At) =>
    own.flatMap((each) => (each.standing.at === at ? [each as Waiting & { standing: { at: At } }] : []))
  const refused = of('refused')
  const found = of('found')
  const takenOut = of('takenOut')
  return (
    <Dialog title={w.title} onClose={onClose}>
      <p>{w.explain}</p>
      {refused.length > 0 && (
        <section className="stack" aria-label={w.refused}>
          <h3>{w.refused}</h3>
          <p>{w.refusedSays}</p>
          {refused.map((each) => (
            <Refused key={each.place} waiting={each} />
          ))}
        </section>
      )}
      {found.length > 0 && (
        <section className="stack" aria-label={w.found}>
          <h3>{w.found}</h3>
          <p>{w.foundSays}</p>
          {found.map((each) => (
            <div key={each.place} className="stack">
              <Head waiting={each} />
              {each.standing.at === 'found' && <Findings findings={each.standing.findings} />}
              <div>
                <button type="button" onClick={() => void noteFound(each)}>
                  {w.noted}
                </button>
              </div>
            </div>
          ))}
        </section>
      )}
      <ul className="lines">
        {waiting.slice(0, mostShown).map((each) => (
          <li key={each.place}>
            <Head waiting={each} />
            {each.standing.at === 'unsigned' && (
              <button type="button" className="main" onClick={() => void signWaiting(each)}>
                {words.signIn.signNow}
              </button>
            )}
          </li>
        ))}
        {waiting.length > mostShown && <li>{w.more(waiting.length - mostShown)}</li>}
      </ul>
      <OfOthers waiting={others} />
      {waiting.length + refused.length + found.length + others.length === 0 && <p className="soft">{w.none}</p>}
      <button type="button" className="main" onClick={() => void sendAllWaiting()}>
        {w.again}
      </button>
      {takenOut.length > 0 && <TakenOut waiting={takenOut} />}
    </Dialog>
  )
}

function Head({ waiting: { entry, title, standing } }: { readonly waiting: Waiting }) {
  const times = useTimes()
  return (
    <div className="grow">
      <strong>{title}</strong>
      <About body={entry.body} />, {times.moment(entry.happenedAt)}
      {(standing.at === 'toSend' || standing.at === 'author') && (
        <>
          <br />
          <span className="small">{words.outbox.waiting}</span>
        </>
      )}
    </div>
  )
}

/** What an entry is about, so that of ten alike it is told which is which: a name that it gives itself, or what it names first. */
function About({ body }: { readonly body: Readonly<Record<string, unknown>> }) {
  if (typeof body['name'] === 'string') return `: ${body['name']}`
  const texts = Object.values(body).filter((value) => typeof value === 'string')
  const about = texts.map((text) => parseSubject(text)).find((subject) => subject !== undefined)
  if (about === undefined) return null
  return (
    <>
      : <Named id={about} />
    </>
  )
}

/** Kept until somebody has dealt with it. Only its author changes what it says, since it is recorded in the author's name. */
function Refused({ waiting }: { readonly waiting: Waiting }) {
  const [why, setWhy] = useState('')
  const who = useStore(whoStore)
  const author = useNames('person')(waiting.entry.by)
  const w = words.outbox
  const discard = (event: FormEvent) => {
    event.preventDefault()
    if (who !== null) void takeOut(waiting, who, why)
  }
  return (
    <article className="stack" aria-label={waiting.title}>
      <Head waiting={waiting} />
      {waiting.standing.at === 'refused' && <ProblemNote error={new ProblemError(waiting.standing.problem)} />}
      <details>
        <summary>{w.edit}</summary>
        {who === waiting.entry.by ? (
          <CorrectEntry of={waiting} onSend={(entry) => void sendAnew(waiting, entry)} />
        ) : (
          <p>{w.onlyAuthor(author)}</p>
        )}
      </details>
      <details>
        <summary>{w.discard}</summary>
        <form className="form" aria-label={w.discard} onSubmit={discard}>
          <TextField label={w.discardWhy} minLength={5} value={why} onChange={setWhy} />
          <WhoNeeded />
          <div>
            <button type="submit" disabled={who === null}>
              {w.discard}
            </button>
          </div>
        </form>
      </details>
    </article>
  )
}

/** How much waits for whom, and no more: what another person entered is not shown. */
function OfOthers({ waiting }: { readonly waiting: readonly Waiting[] }) {
  const name = useNames('person')
  const authors = Object.entries(Object.groupBy(waiting, ({ entry }) => entry.by))
  return authors.map(([author, theirs = []]) => {
    const open = theirs.filter(({ standing }) => standing.at !== 'takenOut').length
    return open === 0 ? null : <p key={author}>{words.outbox.ofAuthor(open, name(author as Waiting['entry']['by']))}</p>
  })
}

function TakenOut({ waiting }: { readonly waiting: readonly Waiting[] }) {
  const name = useNames('person')
  const times = useTimes()
  return (
    <details>
      <summary>{words.outbox.takenOut}</summary>
      <ul className="lines">
        {waiting.map(({ place, title, entry, standing }) => (
          <li key={place}>
            <div className="grow">
              <strong>{title}</strong>, {times.moment(entry.happenedAt)}
              <br />
              <span className="small">
                {standing.at === 'takenOut' &&
                  words.outbox.takenOutBy(name(standing.by), times.moment(standing.when), standing.why)}
              </span>
            </div>
          </li>
        ))}
      </ul>
    </details>
  )
}

function partition<Each>(all: readonly Each[], isFirst: (each: Each) => boolean): readonly [Each[], Each[]] {
  return [all.filter(isFirst), all.filter((each) => !isFirst(each))]
}
