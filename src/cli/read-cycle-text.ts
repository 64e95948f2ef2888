import { citeSource } from '#units/source.ts'
import type { CriterionResult, SteamCriterion } from '#workings/steam/criterion.ts'
import type { SteamCycleReading } from '#workings/steam/reading.ts'

const resultWords: Readonly<Record<CriterionResult, string>> = {
  met: 'met',
  notMet: 'NOT MET',
  notEvaluable: 'not evaluable',
}
const phaseWords: Readonly<Record<SteamCycleReading['phases'][number]['id'], string>> = {
  airRemoval: 'air removal',
  heating: 'heating',
  equilibration: 'equilibration',
  holding: 'holding time',
  exhaust: 'exhaust',
  drying: 'drying',
}

export const caution =
  'An aid to trained staff, not a release: the maker’s instructions, local regulation and the load’s other indicators decide.'

/** One reading for people: verdict, phases, figures, criteria with their sources, findings, caution. */
export function readingAsText(reading: SteamCycleReading): string {
  return [
    `Cycle ${reading.cycle} of ${reading.cycles}: ${resultWords[reading.verdict]}`,
    '',
    ...reading.phases.map(
      ({ id, startSeconds, endSeconds }) =>
        `  ${phaseWords[id].padEnd(14)} ${startSeconds} to ${endSeconds} s  (${Math.round((endSeconds - startSeconds) * 10) / 10} s)`,
    ),
    '',
    ...figures(reading).map((line) => `  ${line}`),
    '',
    ...reading.criteria.flatMap(criterionLines),
    ...(reading.findings.length === 0
      ? []
      : ['', 'Findings', ...reading.findings.map(({ weight, says }) => `  ${weight}: ${says}`)]),
    '',
    caution,
    '',
  ].join('\n')
}

function figures(reading: SteamCycleReading): string[] {
  const { fMinutes, fReferenceC, zK, fChannel, minC, maxC, pulses, airFraction, dryingSeconds, dryingDepthKPa } =
    reading
  return [
    fMinutes === null ? 'F: none' : `F (${fReferenceC} °C, z ${zK} K) ${fMinutes} min, coldest channel "${fChannel}"`,
    minC === null ? 'holding time: none' : `holding time between ${minC} and ${maxC} °C`,
    pulses.length === 0
      ? 'no air-removal pulses seen'
      : `${pulses.length} air-removal pulses: ${pulses.map(({ lowKPa, highKPa }) => `${lowKPa} → ${highKPa}`).join(', ')} kPa; air left about ${airFraction}`,
    dryingSeconds === null ? 'no drying under vacuum seen' : `drying ${dryingSeconds} s, down to ${dryingDepthKPa} kPa`,
  ]
}

function criterionLines({ title, result, says, source }: SteamCriterion): string[] {
  return [`  ${resultWords[result].padEnd(14)} ${title}: ${says}`, `  ${''.padEnd(14)} ${citeSource(source)}`]
}
