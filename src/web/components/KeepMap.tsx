import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { type Registered, readInForceAt } from '#road/sterilising/read-in-force.ts'
import type { SubjectId } from '#road/subject.ts'
import { entriesOfQuery, subjectQuery } from '../api/queries.ts'
import { Tick } from './Fields.tsx'
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

/** Whether a registration told all else that a log is read by as it is now: only then may one of now stand from the beginning. */
function isAlike(then: Registered, { type, airRemoval, windows }: Omit<Registered, 'at' | 'entry'>): boolean {
  return (
    then.type === type &&
    then.airRemoval === airRemoval &&
    JSON.stringify(then.windows ?? {}) === JSON.stringify(windows ?? {})
  )
}

/**
 * The registration of a machine is corrected by one with its map; everything else of it stays as it is. It is in force from
 * now on, or from the first registration when the map of then never was right and nothing else was changed since.
 */
export function KeepMap({ kind, machine, map, header }: KeepProps) {
  const entry = useEntry('machine-registered')
  const { data } = useQuery(subjectQuery(machine))
  const { data: entries } = useQuery(entriesOfQuery(machine))
  const [wasWrong, setWasWrong] = useState(false)
  // The last of them: what it corrects in turn is no longer in force at any time.
  const registered = entries?.filter((each) => each.kind === 'machine-registered').toSorted((a, b) => b.seq - a.seq)[0]
  if (data === undefined || registered === undefined) return null
  const { registered: history = [] } = data.state
  const beginning = history.map(({ at }) => at).toSorted()[0]
  const from = wasWrong && beginning !== undefined ? { happenedAt: beginning } : {}
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
  const isSent = (map: typeof logMap): boolean => JSON.stringify(keptLogMap(kind, map, header)) === JSON.stringify(sent)
  const isKept = sent !== null && isSent(logMap)
  const wasOther =
    sent !== null &&
    beginning !== undefined &&
    history.some((each) => each.logMap !== null) &&
    history.every((each) => isAlike(each, data.state)) &&
    !isSent(readInForceAt(data.state, beginning).logMap)
  const canKeep = !isKept || (wasOther && wasWrong)
  if (isKept && !wasOther && entry.progress.at !== 'kept') return null
  return (
    <div className="row">
      {wasOther && (
        <Tick checked={wasWrong} onChange={setWasWrong}>
          {words.machines.log.wrongFromBeginning}
        </Tick>
      )}
      {canKeep && (
        <button
          type="button"
          disabled={entry.by === null || sent === null || entry.progress.at === 'sending'}
          onClick={() =>
            sent !== null && void entry.send({ ...body, logMap: sent }, { ...from, corrects: registered.id })
          }
        >
          {words.machines.log.keepMap}
        </button>
      )}
      <output>{entry.progress.at === 'kept' && words.machines.log.mapKept}</output>
      {entry.progress.at === 'refused' && <ProblemNote error={entry.progress.error} />}
    </div>
  )
}
