import { devices } from './devices.ts'
import type { Hospital } from './hospital.ts'
import { minutes } from './hospital.ts'
import { machines } from './machines.ts'
import { outlets } from './water-days.ts'
import { manager, people } from './people.ts'
import { workingHours } from './working-hours.ts'
import { ownedSets, setTypes } from './sets.ts'
import type { DeviceKey } from './devices.ts'

/** Sets that go round outside the daily stock: one for gas, one for each bath. */
const otherSets = [
  ['gas-scope-1', 'Video telescope 1', 'video-scope'],
  ['office-scope-1', 'Hysteroscope 1', 'office-scope'],
  ['office-scope-2', 'Hysteroscope 2', 'office-scope'],
] as const satisfies readonly (readonly [string, string, DeviceKey])[]

const hospitalName = 'Vessary Hill Hospital, surgical unit'

/** The first morning: the unit is opened, and its people, devices, sets and machines are entered. */
export function registerUnit(hospital: Hospital): void {
  let at = hospital.clock.at(0, 360)
  const entered = () => {
    at += 0.25 * minutes
    return { at, by: manager, room: 'Unit office' } as const
  }
  hospital.write({
    ...entered(),
    by: 'person:desrosiers',
    kind: 'person-registered',
    body: { person: manager, name: 'Paul Desrosiers', roles: ['manager'] },
  })
  hospital.write({
    ...entered(),
    kind: 'unit-opened',
    body: { unit: 'unit:vessary-hill', name: hospitalName, demonstration: true, timeZone: hospital.clock.timeZone },
  })
  for (const [key, name, roles] of people) {
    if (`person:${key}` === manager) continue
    hospital.write({
      ...entered(),
      kind: 'person-registered',
      body: { person: `person:${key}`, name, roles: [...roles] },
    })
  }
  for (const [key, device] of Object.entries(devices)) {
    hospital.write({
      ...entered(),
      kind: 'device-registered',
      body: { device: `device:${key}`, ...device, lumens: [...device.lumens] },
    })
  }
  for (const machine of machines) hospital.write({ ...entered(), kind: 'machine-registered', body: machine })
  for (const [key, name, use, treatment] of outlets) {
    hospital.write({
      ...entered(),
      kind: 'outlet-registered',
      body: { outlet: `outlet:${key}`, name, use, treatment },
    })
  }
  for (const [key, name, device] of otherSets) {
    const countSheet = [{ device: `device:${device}` as const, count: 1 }]
    hospital.write({ ...entered(), kind: 'set-registered', body: { set: `set:${key}`, name, countSheet } })
  }
  for (const set of ownedSets) {
    const type = setTypes[set.type]
    const items = itemsOf(set.key, set.type)
    for (const [item, device] of items) {
      hospital.write({
        ...entered(),
        kind: 'item-registered',
        body: { item: `item:${item}`, device: `device:${device}`, serial: item.toUpperCase() },
      })
    }
    hospital.write({
      ...entered(),
      kind: 'set-registered',
      body: {
        set: set.id,
        name: `${type.name} ${set.key.slice(set.key.lastIndexOf('-') + 1)}`,
        countSheet: type.sheet.map(([device, count]) => ({ device: `device:${device}`, count })),
        items: items.map(([item]) => `item:${item}` as const),
      },
    })
  }
  for (const hours of workingHours)
    hospital.write({ ...entered(), kind: 'hours-set', body: { unit: 'unit:vessary-hill', hours } })
}

/** Telescopes are followed one by one; other devices by their count. */
function itemsOf(key: string, type: keyof typeof setTypes): (readonly [string, DeviceKey])[] {
  return type === 'scope' ? [[`telescope-${key.slice(-1)}`, 'telescope-10-30']] : []
}
