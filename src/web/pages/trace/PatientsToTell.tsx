import { useQueries } from '@tanstack/react-query'
import { useState } from 'react'
import { flushSync } from 'react-dom'
import { Link } from 'react-router'
import { subjectKey } from '#road/subject.ts'
import type { RecallAnswer } from '#service/api-types.ts'
import { subjectQuery } from '../../api/queries.ts'
import { useNames } from '../../components/Named.tsx'
import { Table } from '../../components/Table.tsx'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { outcomeText } from './AccountPack.tsx'

/** Every patient that a pack of this recall was opened for, on the screen and as a list to print by itself. */
export function PatientsToTell({ answer }: { readonly answer: RecallAnswer }) {
  const [alone, setAlone] = useState(false)
  const printAlone = () => {
    flushSync(() => setAlone(true))
    print()
    setAlone(false)
  }
  const used = answer.packs.flatMap((pack) =>
    pack.case === null || pack.duty === 'cleared' ? [] : [{ ...pack, case: pack.case }],
  )
  const w = words.trace.recall
  return (
    <section className={alone ? 'stack print-alone' : 'stack'} aria-label={w.tell}>
      <h2>{w.tell}</h2>
      {used.length === 0 ? (
        <p className="soft">{w.tellNone}</p>
      ) : (
        <>
          <p className="soft">{w.tellSays}</p>
          <Patients used={used} />
          <div className="no-print">
            <button type="button" onClick={printAlone}>
              {w.tellPrint}
            </button>
          </div>
        </>
      )}
    </section>
  )
}

type Pack = RecallAnswer['packs'][number]
type UsedPack = Pack & { readonly case: NonNullable<Pack['case']> }

function Patients({ used }: { readonly used: readonly UsedPack[] }) {
  const times = useTimes()
  const setName = useNames('set')
  const byCase = [...Map.groupBy(used, (pack) => pack.case)]
  const cases = useQueries({ queries: byCase.map(([id]) => subjectQuery(id)) })
  const w = words.trace.recall
  return (
    <Table>
      <caption>
        {w.tell} ({byCase.length})
      </caption>
      <thead>
        <tr>
          <th scope="col">{w.tellPatient}</th>
          <th scope="col">{w.tellDay}</th>
          <th scope="col">{w.tellSets}</th>
          <th scope="col">{w.tellDone}</th>
        </tr>
      </thead>
      <tbody>
        {byCase.map(([id, packs], place) => {
          const known = cases[place]?.data?.state
          const day = known?.recorded?.startedAt ?? known?.booked?.plannedAt
          return (
            <tr key={id}>
              <th scope="row">
                <Link to={paths.oneCase(id)}>{known?.booked?.patient ?? subjectKey(id)}</Link>
              </th>
              <td>{day === undefined ? '' : times.day(day)}</td>
              <td>{packs.map((pack) => `${setName(pack.set)} (${subjectKey(pack.round)})`).join(', ')}</td>
              <td>
                {[
                  ...new Set(packs.map(({ outcome }) => (outcome === null ? w.notAccounted : outcomeText(outcome)))),
                ].join(', ')}
              </td>
            </tr>
          )
        })}
      </tbody>
    </Table>
  )
}
