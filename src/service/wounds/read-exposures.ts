import { soakAlarmMinutes } from '#road/cleaning/limits.ts'
import type { KnownOf } from '#road/known.ts'
import type { SubjectId, SubjectKind } from '#road/subject.ts'
import { type CaseExposure, exposuresOfCase, type Touched } from '#road/wounds/investigation/exposures-of-case.ts'
import { longOperationMinutes } from '#road/wounds/limits.ts'
import type { CaseLine } from '#road/wounds/surveillance/line.ts'
import type { LineList, WoundReader } from './read-lines.ts'

export interface ExposedLine {
  readonly line: CaseLine
  readonly exposures: readonly CaseExposure[]
}

export interface ExposedLines {
  readonly lines: readonly ExposedLine[]
  readonly touched: Touched
}

/** What each of these cases was exposed to, by the record. Everything that they touched is read once. */
export async function readExposures(
  reader: WoundReader,
  list: LineList,
  lines: readonly CaseLine[],
): Promise<ExposedLines> {
  const opened = new Map(lines.map((line) => [line.case, roundsOf(list.cases.get(line.case))]))
  const rounds = await knownOf(reader, [...opened.values()].flat())
  const each = [...rounds.values()]
  const [washes, loads, immersions] = await Promise.all([
    knownOf(
      reader,
      each.flatMap((round) => round.wash?.id ?? []),
    ),
    knownOf(
      reader,
      each.flatMap((round) => round.load?.id ?? []),
    ),
    knownOf(
      reader,
      each.flatMap((round) => round.immersion?.id ?? []),
    ),
  ])
  const baths = await knownOf(
    reader,
    [...immersions.values()].flatMap((immersion) => immersion.bath ?? []),
  )
  const touched: Touched = {
    rounds,
    washes,
    loads,
    immersions,
    baths,
    soakWithinMinutes: list.policy.limit(soakAlarmMinutes).value,
    longMinutes: list.policy.limit(longOperationMinutes).value,
  }
  return {
    lines: lines.map((line) => ({ line, exposures: exposuresOfCase(line, opened.get(line.case) ?? [], touched) })),
    touched,
  }
}

function roundsOf(operation: KnownOf<'case'> | undefined): readonly SubjectId<'round'>[] {
  return [...new Set(operation?.opened.map((pack) => pack.round) ?? [])]
}

const chunk = 500

async function knownOf<K extends SubjectKind>(
  reader: WoundReader,
  ids: readonly SubjectId<K>[],
): Promise<ReadonlyMap<SubjectId<K>, KnownOf<K>>> {
  const wanted = [...new Set(ids)]
  const parts = Array.from({ length: Math.ceil(wanted.length / chunk) }, (_, index) =>
    reader.known(wanted.slice(index * chunk, (index + 1) * chunk)),
  )
  return new Map((await Promise.all(parts)).flatMap((part) => [...part]))
}
