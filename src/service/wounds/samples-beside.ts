import type { Instant } from '#road/instant.ts'
import type { SubjectId } from '#road/subject.ts'
import type { Bodies } from '#road/kinds.ts'
import type { KnownOf } from '#road/known.ts'
import { sampleStanding, type SampleStanding } from '#road/wounds/investigation/sample-fold.ts'
import type { InvestigationList } from './investigation-list.ts'
import type { WoundReader } from './read-lines.ts'

/** A sample from the unit with its result, as it stands beside the suspects. */
export interface SampleBeside {
  readonly sample: SubjectId<'sample'>
  readonly takenAt: Instant
  readonly place: Bodies['sample-taken']['place']
  readonly where: string
  readonly from: SubjectId | null
  readonly lookingFor: Bodies['sample-taken']['lookingFor']
  readonly standing: SampleStanding
  readonly organism: string | null
  readonly acidFast: Bodies['sample-read']['acidFast'] | null
  readonly sameAsWounds: Bodies['sample-read']['sameAsWounds'] | null
}

const most = 200

/** Every sample since a moment, whatever came of it, the newest first: no growth and waiting are results to see too. */
export async function samplesSince(reader: WoundReader, since: Instant): Promise<readonly KnownOf<'sample'>[]> {
  return (await everySample(reader)).filter(({ taken }) => taken !== null && taken.at >= since)
}

/** Those that were taken on the days of an investigation, or for it. */
export async function samplesOf({
  reader,
  window,
  samples,
  list,
}: InvestigationList): Promise<readonly KnownOf<'sample'>[]> {
  const own = new Set<string>(samples)
  const inDays = (at: Instant): boolean => list.dayOf(at) >= window.from && list.dayOf(at) <= window.to
  return (await everySample(reader)).filter(({ id, taken }) => taken !== null && (own.has(id) || inDays(taken.at)))
}

function everySample(reader: WoundReader): Promise<readonly KnownOf<'sample'>[]> {
  return reader.standing('sample', ['waiting', 'growth', 'noGrowth'])
}

/** Samples as they stand beside the suspects, the newest first. */
export function samplesBeside(samples: readonly KnownOf<'sample'>[]): readonly SampleBeside[] {
  return samples
    .flatMap((sample) => besides(sample, sampleStanding(sample)))
    .sort((a, b) => (a.takenAt < b.takenAt ? 1 : a.takenAt > b.takenAt ? -1 : a.sample < b.sample ? -1 : 1))
    .slice(0, most)
}

function besides({ id, taken, read }: KnownOf<'sample'>, standing: SampleBeside['standing']): readonly SampleBeside[] {
  if (taken === null) return []
  return [
    {
      sample: id,
      takenAt: taken.at,
      place: taken.place,
      where: taken.where,
      from: taken.from ?? null,
      lookingFor: taken.lookingFor,
      standing,
      organism: read?.organism ?? null,
      acidFast: read?.acidFast ?? null,
      sameAsWounds: read?.sameAsWounds ?? null,
    },
  ]
}
