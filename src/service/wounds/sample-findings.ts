import { exposureTypes, type ExposureType } from '#road/wounds/investigation/exposure-types.ts'
import { type SubjectId, subjectKind } from '#road/subject.ts'
import type { KnownOf } from '#road/known.ts'
import { sampleStanding } from '#road/wounds/investigation/sample-fold.ts'

/** What samples from the unit grew, as evidence beside the exposures that they were taken from. */
export function sampleFindings(
  samples: readonly KnownOf<'sample'>[],
): readonly { readonly type: string; readonly id: string; readonly says: string }[] {
  return samples.flatMap((sample) => {
    const { taken, read } = sample
    if (sampleStanding(sample) !== 'growth' || taken === null || read === null || taken.from === undefined) return []
    const what = read.organism ?? (read.acidFast === 'positive' ? 'acid-fast rods' : 'growth')
    const same = read.sameAsWounds === 'same' ? ', the same as from the wounds' : ''
    return typesOf(taken.from).map((type) => ({ type, id: taken.from ?? '', says: `${taken.where}: ${what}${same}` }))
  })
}

/** As what kinds of exposure a subject can be met. */
function typesOf(subject: SubjectId): readonly ExposureType[] {
  const kind = subjectKind(subject)
  if (kind === 'machine') return ['washer', 'steriliser']
  return exposureTypes.filter((type) => type === kind)
}
