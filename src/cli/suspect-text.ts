import type { Suspects } from '#service/wounds/suspects-answer.ts'

type Row = Suspects['ranking']['ranked'][number]

/** The odds ratio with its exact interval. */
export function oddsText({ oddsRatio, oddsRatioLimits: [low, high] }: Row): string {
  const figure = (value: Row['oddsRatio']): string => (typeof value === 'number' ? value.toFixed(2) : (value ?? '-'))
  return `odds ratio ${figure(oddsRatio)} (${figure(low)} to ${figure(high)})`
}

/** The recalls that reach what else a suspect touched, or why it has none. */
export function wayText(way: Suspects['recalls'][string] | undefined): string {
  if (way === undefined) return 'nothing to recall'
  const steps = way.recalls.map(({ of, since }) => `recall ${of}${since === null ? '' : ` since ${since}`}`)
  return [...steps, ...(way.without === null ? [] : [`no recall by itself: ${way.without}`])].join('; ')
}

/** What was compared: the days of operation, whose they are, how many. */
export function spanText({ from, to, of, wounds }: Suspects['span'], ranking: Suspects['ranking']): readonly string[] {
  return [
    'operations',
    `${from} to ${to}`,
    ...(of === null ? [] : [of.investigation, ...(of.why === null ? [] : [`days set: ${of.why}`])]),
    ...(of === null || of.knownAt === null ? [] : [`as known when it was closed on ${of.knownAt.slice(0, 10)}`]),
    `${ranking.infected} infected of ${ranking.cases}`,
    ...(wounds.length === 0 ? [] : [`of ${wounds.length} named`]),
  ]
}

/** A sample from the unit with its result. */
export function sampleText(sample: Suspects['samples'][number]): readonly string[] {
  const { takenAt, place, where, from, standing, organism, acidFast, sameAsWounds } = sample
  return [
    'sample',
    takenAt.slice(0, 10),
    place,
    where,
    from ?? '-',
    standing,
    organism ?? (acidFast === 'positive' ? 'acid-fast' : '-'),
    sameAsWounds ?? '-',
  ]
}
