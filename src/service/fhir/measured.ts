import type { Instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import type { Step } from '#road/round.ts'
import type { WantedIncubation } from '#road/sterilising/incubation.ts'
import { invalidReading } from '#road/sterilising/invalid-reading.ts'
import { fhirId } from './fhir-id.ts'
import { coded, type FhirResource, personRef, quantity, resource, systems } from './resource.ts'

/*
 * What was measured of a load, as Observation: its cycle, with each figure that could be computed, and each indicator. The id is
 * that of the entry that stands. What could not be computed says so; it is never a figure, and never a pass.
 */

const interpretation = 'http://terminology.hl7.org/CodeSystem/v3-ObservationInterpretation'
const absent = 'http://terminology.hl7.org/CodeSystem/data-absent-reason'

const figures = [
  ['holding-time', 'holdingSeconds', 's'],
  ['equilibration-time', 'equilibrationSeconds', 's'],
  ['lethality', 'fMinutes', 'min'],
  ['lowest-temperature', 'minC', 'Cel'],
  ['highest-temperature', 'maxC', 'Cel'],
  ['largest-temperature-difference', 'maxSpreadK', 'K'],
] as const

export function observationsOf(load: KnownOf<'load'>, at: Instant, wanted: WantedIncubation): readonly FhirResource[] {
  const about = load.machine === null ? undefined : { reference: `Device/${fhirId(load.machine)}` }
  const base = (code: string, text: string, { at: when, by }: Pick<Step<object>, 'at' | 'by'>) => ({
    identifier: [{ system: systems.subject, value: load.id }],
    status: 'final',
    category: [coded('http://terminology.hl7.org/CodeSystem/observation-category', 'laboratory')],
    code: coded(systems.observation, code, text),
    subject: about,
    effectiveDateTime: when,
    performer: [personRef(by)],
  })
  const cycle = load.cycle
  return [
    ...(cycle === null
      ? []
      : [
          resource('Observation', cycle.entry, at, {
            ...base('sterilising-cycle', `Sterilising cycle, ${cycle.program}`, cycle),
            effectiveDateTime: undefined,
            effectivePeriod: { start: cycle.startedAt, end: cycle.endedAt },
            valueCodeableConcept: coded(systems.result, cycle.report.verdict),
            component: figures.map(([code, field, unit]) => {
              const value = cycle.report[field]
              return {
                code: coded(systems.observation, code),
                ...(value === null
                  ? { dataAbsentReason: coded(absent, 'unknown') }
                  : { valueQuantity: quantity(value, unit) }),
              }
            }),
          }),
        ]),
    ...load.chemical.map((read) =>
      resource('Observation', read.entry, at, {
        ...base('chemical-indicator', `Chemical indicator of type ${read.type}, ${read.where}`, read),
        valueCodeableConcept: coded(systems.result, read.result),
      }),
    ),
    ...load.biological.map((read) =>
      resource('Observation', read.entry, at, {
        ...base('biological-indicator', 'Biological indicator', read),
        valueCodeableConcept: coded(systems.result, read.result),
        // No growth that proves nothing has no interpretation: a reader would take a negative for a pass.
        interpretation:
          invalidReading(read, wanted) === undefined
            ? [coded(interpretation, read.result === 'growth' ? 'POS' : 'NEG')]
            : undefined,
        component: [
          { code: coded(systems.observation, 'incubation-time'), valueQuantity: quantity(read.incubatedHours, 'h') },
          {
            code: coded(systems.observation, 'control'),
            ...(read.control === null
              ? { dataAbsentReason: coded(absent, 'not-performed') }
              : { valueCodeableConcept: coded(systems.result, read.control.result) }),
          },
        ],
      }),
    ),
  ]
}
