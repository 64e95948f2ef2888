import { parseSubject } from '#road/subject.ts'
import type { Suspects } from '#service/api-types.ts'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { Table } from '../../components/Table.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { parts } from './parts.ts'
import { resultOfSample } from './result-of-sample.ts'

/** What was sampled in the unit, beside the suspects: outlets, baths, trays, sleeves, aerators, with what grew. */
export function SamplesBeside({ samples }: { readonly samples: Suspects['samples'] }) {
  const times = useTimes()
  const w = words.wounds
  return (
    <section className="stack" id={parts.samples} aria-label={w.investigation.samples}>
      <h2>{w.investigation.samples}</h2>
      {samples.length === 0 ? (
        <p className="soft">{w.suspects.noSamples}</p>
      ) : (
        <Table>
          <caption className="unseen">{w.investigation.samples}</caption>
          <thead>
            <tr>
              <th scope="col">{w.suspects.takenOn}</th>
              <th scope="col">{w.investigation.place}</th>
              <th scope="col">{w.investigation.where}</th>
              <th scope="col">{w.suspects.takenFrom}</th>
              <th scope="col">{w.suspects.result}</th>
            </tr>
          </thead>
          <tbody>
            {samples.map((sample) => {
              const from = sample.from === null ? undefined : parseSubject(sample.from)
              return (
                <tr key={sample.sample}>
                  <th scope="row" className="whole">
                    {times.day(sample.takenAt)}
                  </th>
                  <td>{w.investigation.places[sample.place]}</td>
                  <td>{sample.where}</td>
                  <td>{from === undefined ? '—' : <SubjectLink id={from} />}</td>
                  <td>{resultOfSample(sample)}</td>
                </tr>
              )
            })}
          </tbody>
        </Table>
      )}
    </section>
  )
}
