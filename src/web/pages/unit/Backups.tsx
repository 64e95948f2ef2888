import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { BackupsAnswer } from '#service/api-types.ts'
import { post, ProblemError } from '../../api/client.ts'
import { backupsQuery } from '../../api/keeping-queries.ts'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** The backups that are kept, how the last one went, and a way to make one now. */
export function Backups() {
  const w = words.keeping
  const client = useQueryClient()
  const { data, error } = useQuery(backupsQuery)
  const make = useMutation({
    mutationFn: () => post<BackupsAnswer>('/api/backups', {}),
    onSuccess: (answer) => client.setQueryData(backupsQuery.queryKey, answer),
  })
  // Not for everybody's eyes, and nothing that they could do about.
  if (error instanceof ProblemError && error.problem.status === 403) return null
  const running = make.isPending || data?.running === true
  return (
    <section className="stack" aria-label={w.backups}>
      <div className="row apart">
        <h2>{w.backups}</h2>
        {data !== undefined && data.schedule !== null && (
          <button type="button" disabled={running} onClick={() => make.mutate()}>
            {w.backupNow}
          </button>
        )}
      </div>
      <p className="soft">{w.backupsLead}</p>
      {error !== null && <ProblemNote error={error} />}
      {make.error !== null && <ProblemNote error={make.error} />}
      {data !== undefined &&
        (data.schedule === null ? <p className="caution">{w.noFolder}</p> : <Kept answer={data} />)}
      {running && <output>{w.backingUp}</output>}
    </section>
  )
}

function Kept({ answer: { schedule, last, overdue, backups } }: { readonly answer: BackupsAnswer }) {
  const w = words.keeping
  const times = useTimes()
  return (
    <>
      {last !== null && !last.good && (
        <p className="problem" role="alert">
          <strong>{w.lastFailed(times.moment(last.at))}: </strong>
          {last.says}
        </p>
      )}
      {overdue && (
        <p className="problem" role="alert">
          <strong>{w.overdue}. </strong>
          {w.overdueDo}
        </p>
      )}
      <dl className="facts">
        <dt>{w.last}</dt>
        <dd>{backups[0] === undefined ? w.never : w.lastGood(times.moment(backups[0].madeAt))}</dd>
        <dt>{w.schedule}</dt>
        <dd>{schedule !== null && w.scheduleSays(schedule.folder, schedule.everyHours)}</dd>
      </dl>
      {backups.length > 0 && (
        <details>
          <summary>{w.kept(backups.length)}</summary>
          <ul className="lines">
            {backups.map((backup) => (
              <li key={backup.name}>
                <div className="grow">{times.moment(backup.madeAt)}</div>
                <span className="soft small">{w.backupLine(backup.entries, backup.bytes)}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  )
}
