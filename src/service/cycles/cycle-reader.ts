import type { Problem } from '#units/problem.ts'
import type { AttachmentDigest } from '#road/attachment.ts'
import { changedPrograms } from '#road/gases/changed-programs.ts'
import { unitPolicy } from '#road/gather.ts'
import { policyFrom } from '#road/policy.ts'
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

/**
 * What the unit and a machine add to the reading of its logs: the programmes that the policy changes, the volume of the
 * chamber, how its columns are read. A programme of the machine's own goes before one of the policy.
 */
export async function machineHints(
  { reader }: RecordContext,
  machine: SubjectId<'machine'> | null | undefined,
): Promise<Pick<CycleTask, 'map' | 'chamberLitres' | 'windows'>> {
  const changed = changedPrograms(policyFrom((await reader.known([unitPolicy])).get(unitPolicy)))
  const known = machine === null || machine === undefined ? undefined : (await reader.known([machine])).get(machine)
  if (known === undefined) return { windows: changed }
  return {
    chamberLitres: known.chamberLitres,
    windows: { ...changed, ...known.windows },
    ...(known.logMap === null ? {} : { map: known.logMap }),
  }
}
