import type { Instant } from '#road/instant.ts'

/*
 * What every resource of HL7 FHIR R4 (4.0.1) here is made of. A resource is plain JSON; what is empty is left out, as the
 * format asks (json.html: no empty objects, arrays or nulls).
 */

export const fhirTypes = [
  'Device',
  'DeviceDefinition',
  'DeviceUseStatement',
  'Procedure',
  'Condition',
  'Observation',
  'Provenance',
  'AuditEvent',
] as const
export type FhirType = (typeof fhirTypes)[number]

export interface FhirResource {
  readonly resourceType: FhirType
  readonly id: string
  readonly meta: { readonly lastUpdated: Instant }
  readonly [element: string]: unknown
}

/**
 * The names of our own codes and numbers. `.invalid` is a name that leads nowhere and never will (RFC 2606): they are to be
 * told apart, not fetched.
 */
const own = 'http://nilgrowth.invalid/fhir'
export const systems = {
  subject: `${own}/subject`,
  entry: `${own}/entry`,
  person: `${own}/person`,
  patientNumber: `${own}/patient-number`,
  serial: `${own}/serial`,
  procedure: `${own}/CodeSystem/procedure`,
  observation: `${own}/CodeSystem/observation`,
  result: `${own}/CodeSystem/result`,
  wound: `${own}/CodeSystem/wound`,
  machine: `${own}/CodeSystem/machine`,
  activity: `${own}/CodeSystem/entry-kind`,
  ucum: 'http://unitsofmeasure.org',
} as const
export const entryHashExtension = `${own}/StructureDefinition/entry-sha256`

export interface Coded {
  readonly coding: readonly { readonly system: string; readonly code: string; readonly display?: string }[]
  readonly text?: string
}

export function coded(system: string, code: string, text?: string): Coded {
  return { coding: [{ system, code }], ...(text === undefined ? {} : { text }) }
}

/** A quantity by the Unified Code for Units of Measure. */
export function quantity(value: number, code: 's' | 'min' | 'h' | 'Cel' | 'K' | 'L') {
  return { value, unit: code, system: systems.ucum, code }
}

/** A patient, by the number that stands for them alone: there is no Patient here to be read. */
export function patientRef(number: string) {
  return { type: 'Patient', identifier: { system: systems.patientNumber, value: number } }
}

export function personRef(person: string) {
  return { type: 'Practitioner', identifier: { system: systems.person, value: person } }
}

/** Without what is absent or empty, at every depth. */
export function withoutEmpty(value: unknown): unknown {
  if (Array.isArray(value)) {
    const held = value.map(withoutEmpty).filter((each) => each !== undefined)
    return held.length === 0 ? undefined : held
  }
  if (value === null || value === undefined || value === '') return undefined
  if (typeof value !== 'object') return value
  const held = Object.entries(value).flatMap(([name, member]) => {
    const kept = withoutEmpty(member)
    return kept === undefined ? [] : [[name, kept] as const]
  })
  return held.length === 0 ? undefined : Object.fromEntries(held)
}

/** A resource as it is given out. */
export function resource(
  resourceType: FhirType,
  id: string,
  lastUpdated: Instant,
  elements: Readonly<Record<string, unknown>>,
): FhirResource {
  const held = withoutEmpty(elements) as Readonly<Record<string, unknown>> | undefined
  return { resourceType, id, meta: { lastUpdated }, ...held }
}
