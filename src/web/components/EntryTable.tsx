import { useQuery } from '@tanstack/react-query'
import type { KeptEntry } from '#road/entry.ts'
import type { SubjectId } from '#road/subject.ts'
import { entriesOfQuery } from '../api/queries.ts'
import { useTimes } from '../session/unit.ts'
import { words } from '../words/words.ts'
import { Findings } from './Findings.tsx'
import { Loaded } from './Loaded.tsx'
import { Named } from './Named.tsx'
import { Why } from './Why.tsx'
import { Table } from './Table.tsx'

/** What was found when the entries about a subject were made, then the entries themselves. */
export function EntryTable({ of }: { readonly of: SubjectId }) {
  return (
    <Loaded query={useQuery(entriesOfQuery(of))}>
      {(entries) => {
        const findings = entries.flatMap((entry) => entry.judgement.findings)
        return (
          <>
            <section className="stack">
              <h2>{words.round.findings}</h2>
              {findings.length === 0 ? (
                <p className="soft">{words.round.noFindings}</p>
              ) : (
                <Findings findings={unique(findings)} />
              )}
            </section>
            <Entries entries={entries} />
          </>
        )
      }}
    </Loaded>
  )
}

function unique(findings: KeptEntry['judgement']['findings']): KeptEntry['judgement']['findings'] {
  return [...new Map(findings.map((finding) => [`${finding.rule} ${finding.says}`, finding])).values()]
}

function Entries({ entries }: { readonly entries: readonly KeptEntry[] }) {
  const times = useTimes()
  return (
    <Table>
      <caption>{words.round.entries}</caption>
      <thead>
        <tr>
          <th scope="col">{words.round.entry}</th>
          <th scope="col">{words.round.when}</th>
          <th scope="col">{words.round.who}</th>
        </tr>
      </thead>
      <tbody>
        {entries.map((entry) => (
          <tr key={entry.id}>
            <td>
              <Why of={{ title: words.unit.entryKinds[entry.kind] ?? entry.kind, entry: entry.id }}>
                {words.unit.entryKinds[entry.kind] ?? entry.kind}
              </Why>
            </td>
            <td>{times.moment(entry.happenedAt)}</td>
            <td>
              <Named id={entry.by} />
            </td>
          </tr>
        ))}
      </tbody>
    </Table>
  )
}
