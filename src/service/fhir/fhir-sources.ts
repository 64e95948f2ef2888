import type { KeptEntry } from '#road/entry.ts'
import { type Instant, instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import { about, readEntry } from '#road/read-entry.ts'
import type { SubjectId, SubjectKind } from '#road/subject.ts'
import type { KnownRow, Reader } from '#journal/journal.ts'
import { incubationOfLoads } from '../incubation-of-loads.ts'
import { auditOf, provenanceOf } from './accounted.ts'
import { conditionOf, procedureOf } from './care.ts'
import { observationsOf } from './measured.ts'
import type { FhirResource, FhirType } from './resource.ts'
import { definitionOf, itemDevice, machineDevice, setDevice, useOf } from './things.ts'

/** Where the resources of a type come from: what is known of subjects of a kind, or the entries themselves. */
export type FhirSource =
  | { readonly from: 'entries'; readonly make: (entry: KeptEntry) => FhirResource }
  | {
      readonly from: SubjectKind
      readonly make: (reader: Reader, rows: readonly KnownRow[]) => Promise<readonly (readonly FhirResource[])[]>
    }

function known<Kind extends SubjectKind>(
  from: Kind,
  resources: (
    state: KnownOf<Kind>,
    at: Instant,
    patientOf: (id: SubjectId<'case'>) => string | undefined,
  ) => readonly FhirResource[],
  caseOf: (state: KnownOf<Kind>) => SubjectId<'case'> | undefined = () => undefined,
): FhirSource {
  return {
    from,
    async make(reader, rows) {
      // Rows of this kind are all that the walk hands in.
      const states = rows.map((row) => row.known as KnownOf<Kind>)
      const cases = await reader.known(states.flatMap((state) => caseOf(state) ?? []))
      const patientOf = (id: SubjectId<'case'>): string | undefined => cases.get(id)?.booked?.patient
      const updated = await Promise.all(rows.map(({ subject }) => lastUpdated(reader, subject)))
      return states.map((state, place) => resources(state, updated[place] ?? instant(0), patientOf))
    },
  }
}

const observed: FhirSource = {
  from: 'load',
  async make(reader, rows) {
    // Rows of this kind are all that the walk hands in.
    const loads = rows.map((row) => row.known as KnownOf<'load'>)
    const wanted = await incubationOfLoads(reader, loads)
    const updated = await Promise.all(rows.map(({ subject }) => lastUpdated(reader, subject)))
    return loads.map((load, place) => observationsOf(load, updated[place] ?? instant(0), wanted(load)))
  },
}

/** When the last entry about it was recorded, a correction or a withdrawal included: by this a reader sees what has changed. */
async function lastUpdated(reader: Reader, subject: SubjectId): Promise<Instant> {
  const entries = await reader.entriesAbout(subject)
  return entries.reduce((last, { recordedAt }) => (recordedAt > last ? recordedAt : last), instant(0))
}

function subjectsOf(entry: KeptEntry): readonly SubjectId[] {
  const read = readEntry(entry)
  return read.kind === 'typed' ? about(read.entry).subjects : []
}

export const fhirSources: Readonly<Record<FhirType, readonly FhirSource[]>> = Object.freeze({
  Device: [
    known('item', (item, at) => [itemDevice(item, at)]),
    known('set', (set, at) => [setDevice(set, at)]),
    known('machine', (machine, at) => [machineDevice(machine, at)]),
  ],
  DeviceDefinition: [known('device', (device, at) => [definitionOf(device, at)])],
  DeviceUseStatement: [
    known(
      'round',
      (round, at, patientOf) => useOf(round, round.opened === null ? undefined : patientOf(round.opened.case), at),
      ({ opened }) => opened?.case,
    ),
  ],
  Procedure: [known('case', procedureOf)],
  Condition: [
    known(
      'wound',
      (wound, at, patientOf) => conditionOf(wound, wound.noted === null ? undefined : patientOf(wound.noted.case), at),
      ({ noted }) => noted?.case,
    ),
  ],
  Observation: [observed],
  Provenance: [{ from: 'entries', make: (entry) => provenanceOf(entry, subjectsOf(entry)) }],
  AuditEvent: [{ from: 'entries', make: (entry) => auditOf(entry, subjectsOf(entry)) }],
})
