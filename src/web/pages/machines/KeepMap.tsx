import { useQuery } from '@tanstack/react-query'
import type { GasLogMap } from '#workings/gas/gas-map.ts'
import type { SteamLogMap } from '#workings/steam/log-map.ts'
import type { Bodies } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import { entriesOfQuery, subjectQuery } from '../../api/queries.ts'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { useEntry } from '../../session/use-entry.ts'
import { words } from '../../words/words.ts'
import { keptGasMap, keptMap } from './kept-map.ts'

export type LogMapKept = SteamLogMap | GasLogMap

interface KeepProps {
  readonly machine: SubjectId<'machine'>
  readonly map: LogMapKept
  readonly header: readonly string[]
}

/** The registration of a machine is corrected by one with its map; everything else of it stays as it is. */
export function KeepMap({ machine, map, header }: KeepProps) {
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
  const inOrder = (each: unknown) =>
    JSON.stringify('reference' in map ? keptMap(each, header) : keptGasMap(each, header))
  const isKept = inOrder(logMap) === inOrder(map)
  if (isKept && entry.progress.at !== 'kept') return null
  return (
    <div className="row">
      {!isKept && (
        <button
          type="button"
          disabled={entry.by === null || entry.progress.at === 'sending'}
          onClick={() => void entry.send({ ...body, logMap: plain(map) }, { corrects: registered.id })}
        >
          {words.machines.log.keepMap}
        </button>
      )}
      <output>{entry.progress.at === 'kept' && words.machines.log.mapKept}</output>
      {entry.progress.at === 'refused' && <ProblemNote error={entry.progress.error} />}
    </div>
  )
}

/** What was left out is left out of the JSON too. */
function plain(map: LogMapKept): NonNullable<Bodies['machine-registered']['logMap']> {
  return JSON.parse(JSON.stringify(map)) as NonNullable<Bodies['machine-registered']['logMap']>
}
