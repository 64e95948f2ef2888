import type { Instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import type { SubjectId } from '#road/subject.ts'
import { fhirId } from './fhir-id.ts'
import { coded, type FhirResource, patientRef, resource, systems } from './resource.ts'

/* What the unit owns: types of instruments as DeviceDefinition; instruments, sets and machines as Device. */

const identified = (subject: SubjectId) => [{ system: systems.subject, value: subject }]

export function definitionOf(device: KnownOf<'device'>, at: Instant): FhirResource {
  return resource('DeviceDefinition', fhirId(device.id), at, {
    identifier: identified(device.id),
    deviceName: [{ name: device.name, type: 'user-friendly-name' }],
    property: [
      { type: coded(systems.observation, 'contact-class'), valueCode: [coded(systems.observation, device.contact)] },
      { type: coded(systems.observation, 'steam-by-maker'), valueCode: [coded(systems.observation, device.steam)] },
    ],
  })
}

export function itemDevice(item: KnownOf<'item'>, at: Instant): FhirResource {
  return resource('Device', fhirId(item.id), at, {
    identifier: [
      ...identified(item.id),
      ...(item.serial === null ? [] : [{ system: systems.serial, value: item.serial }]),
    ],
    definition: item.device === null ? undefined : { reference: `DeviceDefinition/${fhirId(item.device)}` },
    status: item.retired === null ? 'active' : 'inactive',
    serialNumber: item.serial,
  })
}

export function setDevice(set: KnownOf<'set'>, at: Instant): FhirResource {
  return resource('Device', fhirId(set.id), at, {
    identifier: identified(set.id),
    status: set.loan !== null && set.loan.returnedAt !== null ? 'inactive' : 'active',
    deviceName: [{ name: set.name, type: 'user-friendly-name' }],
    type: coded(systems.machine, 'instrumentSet'),
  })
}

export function machineDevice(machine: KnownOf<'machine'>, at: Instant): FhirResource {
  return resource('Device', fhirId(machine.id), at, {
    identifier: identified(machine.id),
    status: machine.service.state === 'inService' ? 'active' : 'inactive',
    deviceName: [{ name: machine.name, type: 'user-friendly-name' }],
    type: coded(systems.machine, machine.type),
  })
}

/** A set that was opened for an operation. Whose it was is the patient of that operation. */
export function useOf(round: KnownOf<'round'>, patient: string | undefined, at: Instant): readonly FhirResource[] {
  if (round.opened === null || round.set === null || patient === undefined) return []
  const { opened } = round
  return [
    resource('DeviceUseStatement', fhirId(round.id), at, {
      identifier: identified(round.id),
      status: 'completed',
      subject: patientRef(patient),
      derivedFrom: [{ reference: `Procedure/${fhirId(opened.case)}` }],
      timingDateTime: opened.at,
      recordedOn: opened.at,
      device: { reference: `Device/${fhirId(round.set)}` },
    }),
  ]
}
