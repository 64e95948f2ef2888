import type { Instant } from '#road/instant.ts'
import type { SubjectId } from '#road/subject.ts'
import type { Bodies } from '#road/kinds.ts'
import type { KnownOf } from '#road/known.ts'
import type { WoundReader } from './read-lines.ts'

/** A sample from the unit with its result, as it stands beside the suspects. */
export interface SampleBeside {
  readonly sample: SubjectId<'sample'>
  readonly takenAt: Instant
  readonly place: Bodies['sample-taken']['place']
  readonly where: string
  readonly from: SubjectId | null
  readonly lookingFor: Bodies['sample-taken']['lookingFor']
  readonly standing: 'waiting' | 'growth' | 'noGrowth'
  readonly organism: string | null
  readonly acidFast: Bodies['sample-read']['acidFast'] | null
  readonly sameAsWounds: Bodies['sample-read']['sameAsWounds'] | null
}

const most = 200

/** Every sample since a moment, whatever came of it, the newest first: no growth and waiting are results to see too. */
export async function samplesBeside(reader: WoundReader, since: Instant): Promise<readonly SampleBeside[]> {
  const standings = ['waiting', 'growth', 'noGrowth'] as const
  const groups = await Promise.all(
    standings.map(async (standing) => {
      const samples = await reader.standing('sample', [standing])
      return samples.flatMap((sample) => besides(sample, standing))
    }),
  )
  return groups
    .flat()
    .filter(({ takenAt }) => takenAt >= since)
    .sort((a, b) => (a.takenAt < b.takenAt ? 1 : -1))
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
