import type { Problem } from '#units/problem.ts'
import type { AttachmentDigest } from '#road/attachment.ts'
import type { SubjectId } from '#road/subject.ts'
import type { CycleLogAnswer } from '../api-types.ts'
import type { RecordContext } from '../context.ts'
import { decodeLog } from '#workings/steam/decode-log.ts'
import type { CycleTask } from './read-cycles.ts'

export type CyclesOr = CycleLogAnswer | { readonly problems: readonly Problem[] }

/** Reads a log away from the thread that answers requests. */
export async function readCyclesAside({ compute }: RecordContext, task: CycleTask): Promise<CyclesOr> {
  const answer = await compute.run({ kind: 'readCycles', ...task })
  switch (answer.kind) {
    case 'cycles':
      return answer.answer
    case 'unusable':
      return { problems: answer.problems }
    case 'output':
    case 'ranking':
      throw new TypeError(`a log is answered with cycles: current answer is ${answer.kind}`)
  }
}

/** The text of a kept log; undefined when no file has that digest. */
export async function keptLog({ reader }: RecordContext, digest: AttachmentDigest): Promise<string | undefined> {
  const kept = await reader.attachment(digest)
  return kept && decodeLog(kept.bytes)
}

/** What a machine adds to the reading of its logs: the volume of its chamber and how its columns are read. */
export async function machineHints(
  { reader }: RecordContext,
  machine: SubjectId<'machine'> | null | undefined,
): Promise<Pick<CycleTask, 'map' | 'chamberLitres' | 'windows'>> {
  if (machine === null || machine === undefined) return {}
  const known = (await reader.known([machine])).get(machine)
  if (known === undefined) return {}
  return {
    chamberLitres: known.chamberLitres,
    ...(known.windows === undefined ? {} : { windows: known.windows }),
    ...(known.logMap === null ? {} : { map: known.logMap }),
  }
}
