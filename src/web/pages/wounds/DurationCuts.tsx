import type { RatesBy } from '#service/api-types.ts'
import { Table } from '../../components/Table.tsx'
import { Why } from '../../components/Why.tsx'
import { words } from '../../words/words.ts'

/** The cut point of duration of each kind of operation, and which of the two ways gave it. */
export function DurationCuts({ cuts }: { readonly cuts: RatesBy['cuts'] }) {
  const w = words.wounds.risk
  return (
    <section className="stack">
      <h2>{w.cuts}</h2>
      <p className="soft">{w.cutsSays}</p>
      {cuts.length > 0 && (
        <Table>
          <caption className="unseen">{w.cuts}</caption>
          <thead>
            <tr>
              <th scope="col">{w.operation}</th>
              <th scope="col">{w.cut}</th>
              <th scope="col">{w.way}</th>
            </tr>
          </thead>
          <tbody>
            {cuts.map((cut) => (
              <tr key={cut.procedure}>
                <th scope="row">{words.wounds.procedures[cut.procedure]}</th>
                <td>
                  <Why
                    of={{
                      title: w.cut,
                      value: w.minutes(String(cut.minutes)),
                      inputs: w.from[cut.from](cut.operations),
                      source: cut.source,
                      working: cut.from === 'own' ? 'percentile75' : undefined,
                    }}
                  >
                    {w.minutes(String(cut.minutes))}
                  </Why>
                </td>
                <td>{w.from[cut.from](cut.operations)}</td>
              </tr>
            ))}
          </tbody>
        </Table>
      )}
    </section>
  )
}
