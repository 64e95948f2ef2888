import { useQuery } from '@tanstack/react-query'
import type { KeptEntry } from '#road/entry.ts'
import { entryQuery } from '../api/queries.ts'
import { useTimes } from '../session/unit.ts'
import { words } from '../words/words.ts'
import { Findings } from './Findings.tsx'
import { Loaded } from './Loaded.tsx'
import { Named } from './Named.tsx'
import { WithdrawEntry } from './WithdrawEntry.tsx'

/** One entry as the record holds it. */
export function EntryFacts({ id }: { readonly id: string }) {
  return <Loaded query={useQuery(entryQuery(id))}>{(entry) => <EntryShown entry={entry} />}</Loaded>
}

export function EntryShown({ entry }: { readonly entry: KeptEntry }) {
  const times = useTimes()
  return (
    <section className="stack">
      <h3>
        {words.why.entry}: {words.unit.entryKinds[entry.kind] ?? entry.kind}
      </h3>
      <dl className="facts">
        <dt>{words.why.by}</dt>
        <dd>
          <Named id={entry.by} />
        </dd>
        <dt>{words.why.happened}</dt>
        <dd>{times.moment(entry.happenedAt)}</dd>
        <dt>{words.why.recorded}</dt>
        <dd>{times.moment(entry.recordedAt)}</dd>
        <dt>{words.why.workstation}</dt>
        <dd>{entry.workstation}</dd>
        <dt>{words.why.place}</dt>
        <dd>{entry.seq}</dd>
        {entry.signed !== undefined && entry.signed.length > 0 && (
          <>
            <dt>{words.signIn.signedBy}</dt>
            <dd>
              {entry.signed.map((signature) => (
                <div key={`${signature.as} ${signature.person}`}>
                  <Named id={signature.person} />: {words.signIn.as[signature.as]} {words.signIn.how[signature.how]},{' '}
                  {times.moment(signature.at)}
                  {signature.alone === true && ` (${words.signIn.aloneShort})`}
                </div>
              ))}
            </dd>
          </>
        )}
        {entry.exception !== undefined && (
          <>
            <dt>{words.why.excepted}</dt>
            <dd>
              <Named id={entry.exception.allowedBy} />: {entry.exception.why}
            </dd>
          </>
        )}
        <dt>{words.why.hash}</dt>
        <dd className="key small">{entry.hash}</dd>
      </dl>
      {entry.judgement.findings.length > 0 && <Findings findings={entry.judgement.findings} />}
      <WithdrawEntry entry={entry} />
      <details>
        <summary>{words.why.body}</summary>
        <pre className="small">{JSON.stringify(entry.body, null, 2)}</pre>
      </details>
    </section>
  )
}
