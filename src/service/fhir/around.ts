import type { Instant } from '#road/instant.ts'
import type { ApiProblem } from '../api-types.ts'
import { type FhirResource, type FhirType, fhirTypes } from './resource.ts'
import { searchSubjects } from './search.ts'

/* What stands around the resources: what the service can do, a page of a search, a problem. */

export const fhirMediaType = 'application/fhir+json; charset=utf-8'
export const fhirBase = '/fhir/R4'

const usual = [
  { name: '_id', type: 'token' },
  { name: '_lastUpdated', type: 'date' },
]

export function capabilityOf(version: string, url: string, date: Instant) {
  return {
    resourceType: 'CapabilityStatement',
    status: 'active',
    date,
    kind: 'instance',
    software: { name: 'nilgrowth', version },
    implementation: {
      description: 'The record of a unit that reprocesses its instruments; patients by number alone',
      url,
    },
    fhirVersion: '4.0.1',
    format: ['application/fhir+json'],
    rest: [
      {
        mode: 'server',
        security: { description: 'As for the rest of the program: by a session that has the right to read' },
        resource: fhirTypes.map((type) => ({
          type,
          interaction: [{ code: 'read' }, { code: 'search-type' }],
          searchParam: [...usual, ...searchSubjects[type].map((name) => ({ name, type: 'reference' }))],
        })),
      },
    ],
  }
}

export function searchBundle(
  base: string,
  {
    resources,
    self,
    next,
  }: { readonly resources: readonly FhirResource[]; readonly self: string; readonly next: string | null },
) {
  return {
    resourceType: 'Bundle',
    type: 'searchset',
    link: [{ relation: 'self', url: self }, ...(next === null ? [] : [{ relation: 'next', url: next }])],
    ...(resources.length === 0
      ? {}
      : {
          entry: resources.map((resource) => ({
            fullUrl: urlOf(base, resource.resourceType, resource.id),
            resource,
            search: { mode: 'match' },
          })),
        }),
  }
}

export function urlOf(base: string, type: FhirType, id: string): string {
  return `${base}/${type}/${id}`
}

const issueCodes: Readonly<Record<number, string>> = {
  400: 'invalid',
  401: 'login',
  403: 'forbidden',
  404: 'not-found',
  405: 'not-supported',
  422: 'invalid',
  429: 'throttled',
  503: 'transient',
}

/** A problem as FHIR says it. */
export function outcomeOf({ status, title, detail, remedy }: ApiProblem) {
  return {
    resourceType: 'OperationOutcome',
    issue: [
      {
        severity: 'error',
        code: issueCodes[status] ?? (status >= 500 ? 'exception' : 'processing'),
        details: { text: title },
        diagnostics: [detail, remedy].filter((text) => text !== '').join(' '),
      },
    ],
  }
}
