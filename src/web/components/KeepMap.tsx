import { useQuery } from '@tanstack/react-query'
import type { SubjectId } from '#road/subject.ts'
import { entriesOfQuery, subjectQuery } from '../api/queries.ts'
import { ProblemNote } from './ProblemNote.tsx'
import { useEntry } from '../session/use-entry.ts'
import { words } from '../words/words.ts'
import { type AnyLogMap, keptLogMap, type LogKind, sentLogMap } from './log-map-kinds.ts'

interface KeepProps {
  readonly kind: LogKind
  readonly machine: SubjectId<'machine'>
  readonly map: AnyLogMap
  readonly header: readonly string[]
}

/** The registration of a machine is corrected by one with its map; everything else of it stays as it is. */
export function KeepMap({ kind, machine, map, header }: KeepProps) {
  const entry = useEntry('machine-registered')
  const { data } = useQuery(subjectQuery(machine))
  const { data: entries } = useQuery(entriesOfQuery(machine))
  const registered = entries?.find((each) => each.kind === 'machine-registered')
  if (data === undefined || registered === undefined) return null
  const { name, type, airRemoval, chamberLitres, programs, logMap, windows, lumenClaims, independentRecord } =
    data.state
  const body = {
    machine,
    name,
    type,
    airRemoval,
    chamberLitres,
    programs: [...programs],
    ...(independentRecord === undefined ? {} : { independentRecord }),
    ...(lumenClaims === undefined ? {} : { lumenClaims }),
    ...(windows === undefined ? {} : { windows }),
  }
  const sent = sentLogMap(kind, map)
  const isKept = sent !== null && JSON.stringify(keptLogMap(kind, logMap, header)) === JSON.stringify(sent)
  if (isKept && entry.progress.at !== 'kept') return null
  return (
    <div className="row">
      {!isKept && (
        <button
          type="button"
          disabled={entry.by === null || sent === null || entry.progress.at === 'sending'}
          onClick={() => sent !== null && void entry.send({ ...body, logMap: sent }, { corrects: registered.id })}
        >
          {words.machines.log.keepMap}
        </button>
      )}
      <output>{entry.progress.at === 'kept' && words.machines.log.mapKept}</output>
      {entry.progress.at === 'refused' && <ProblemNote error={entry.progress.error} />}
    </div>
  )
}
