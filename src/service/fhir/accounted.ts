import type { KeptEntry } from '#road/entry.ts'
import { type SubjectId, subjectKind } from '#road/subject.ts'
import { fhirId } from './fhir-id.ts'
import { coded, entryHashExtension, type FhirResource, personRef, resource, systems } from './resource.ts'

/* Who said what and when: an entry as Provenance, with its hash, and as AuditEvent. */

/** The resource that a subject is; null where there is none, so that it is named by its id alone. */
function typeOf(subject: SubjectId): FhirResource['resourceType'] | null {
  switch (subjectKind(subject)) {
    case 'item':
    case 'set':
    case 'machine':
      return 'Device'
    case 'device':
      return 'DeviceDefinition'
    case 'case':
      return 'Procedure'
    case 'wound':
      return 'Condition'
    default:
      return null
  }
}

function aboutOf(subject: SubjectId) {
  const type = typeOf(subject)
  const identifier = { system: systems.subject, value: subject }
  return type === null ? { identifier } : { reference: `${type}/${fhirId(subject)}`, identifier }
}

/** `subjects`: what the entry is about. */
export function provenanceOf(entry: KeptEntry, subjects: readonly SubjectId[]): FhirResource {
  return resource('Provenance', entry.id, entry.recordedAt, {
    target:
      subjects.length === 0 ? [{ identifier: { system: systems.entry, value: entry.id } }] : subjects.map(aboutOf),
    occurredDateTime: entry.happenedAt,
    recorded: entry.recordedAt,
    activity: coded(systems.activity, entry.kind),
    agent: [
      {
        type: coded('http://terminology.hl7.org/CodeSystem/provenance-participant-type', 'author'),
        who: personRef(entry.by),
      },
      ...(entry.signed ?? []).map(({ person }) => ({
        type: coded('http://terminology.hl7.org/CodeSystem/provenance-participant-type', 'attester'),
        who: personRef(person),
      })),
    ],
    entity: [
      {
        role: 'source',
        what: {
          identifier: { system: systems.entry, value: entry.id },
          extension: [{ url: entryHashExtension, valueString: entry.hash }],
        },
      },
      ...(entry.corrects === undefined
        ? []
        : [{ role: 'revision', what: { identifier: { system: systems.entry, value: entry.corrects } } }]),
    ],
  })
}

export function auditOf(entry: KeptEntry, subjects: readonly SubjectId[]): FhirResource {
  return resource('AuditEvent', entry.id, entry.recordedAt, {
    type: { system: 'http://terminology.hl7.org/CodeSystem/audit-event-type', code: 'rest' },
    subtype: [{ system: systems.activity, code: entry.kind }],
    action: entry.corrects === undefined ? 'C' : 'U',
    recorded: entry.recordedAt,
    outcome: '0',
    agent: [{ who: personRef(entry.by), requestor: true }],
    source: { site: entry.site, observer: { display: entry.workstation } },
    entity: subjects.map((subject) => ({ what: aboutOf(subject) })),
  })
}
