import type { Bodies } from '#road/kinds.ts'

type Device = Omit<Bodies['device-registered'], 'device'>

const plain: Omit<Device, 'name'> = {
  contact: 'critical',
  steam: 'allowed',
  lumens: [],
  parts: 1,
  insulated: false,
  optic: false,
  singleUse: false,
}

/** What its maker says that it bears, besides heat. */
const borne = {
  immersible: true,
  moistureStable: true,
  vacuumStable: true,
  hasLiquidOrOil: false,
  hasPowder: false,
  hasCellulose: false,
  hasLinen: false,
  battery: false,
  closedAirSpace: false,
}

const jawed = (name: string): Device => ({
  ...plain,
  name,
  parts: 3,
  insulated: true,
  lumens: [{ diameterMm: 2.8, lengthMm: 330 }],
  lifeInUses: 200,
})

/** Every device that the invented unit owns, by the key of its id. */
export const devices = {
  'telescope-10-30': { ...plain, name: 'Telescope 10 mm, 30 degrees', optic: true },
  'light-cable': { ...plain, name: 'Light cable 2.5 m' },
  'cannula-11': { ...plain, name: 'Cannula 11 mm with valve', parts: 4, lumens: [{ diameterMm: 11, lengthMm: 105 }] },
  'cannula-6': { ...plain, name: 'Cannula 6 mm with valve', parts: 4, lumens: [{ diameterMm: 6, lengthMm: 105 }] },
  obturator: { ...plain, name: 'Obturator, blunt' },
  'gas-needle': { ...plain, name: 'Gas needle 120 mm', parts: 2, lumens: [{ diameterMm: 1.6, lengthMm: 120 }] },
  grasper: jawed('Grasper, fenestrated, 5 mm'),
  dissector: jawed('Dissector, curved, 5 mm'),
  scissors: jawed('Scissors, curved, 5 mm'),
  hook: { ...plain, name: 'Hook electrode, 5 mm', insulated: true, lifeInUses: 150 },
  'clip-applier': jawed('Clip applier, 10 mm'),
  suction: { ...plain, name: 'Suction and irrigation tube', parts: 3, lumens: [{ diameterMm: 4.2, lengthMm: 330 }] },
  'needle-holder': jawed('Needle holder, 5 mm'),
  'liver-retractor': {
    ...plain,
    name: 'Retractor, five fingers',
    parts: 2,
    lumens: [{ diameterMm: 3.5, lengthMm: 340 }],
  },
  'bowel-grasper': jawed('Grasper, long, 5 mm'),
  'uterus-probe': { ...plain, name: 'Uterine manipulator', parts: 4, lumens: [{ diameterMm: 3, lengthMm: 300 }] },
  tenaculum: { ...plain, name: 'Tenaculum' },
  'mesh-piece': { ...plain, name: 'Mesh, cut piece, new for each case' },
  'handle-set': { ...plain, name: 'Scalpel handle and forceps' },
  'video-scope': {
    ...plain,
    name: 'Video telescope, not for steam',
    steam: 'barred',
    optic: true,
    makerMethods: [{ method: 'ethyleneOxide' }, { method: 'hydrogenPeroxide' }],
    ...borne,
  },
  'office-scope': {
    ...plain,
    name: 'Hysteroscope, 4 mm',
    contact: 'semiCritical',
    steam: 'barred',
    optic: true,
    domain: 'gynaecology',
    makerMethods: [{ method: 'bathDisinfect' }],
    ...borne,
  },
  'camera-head': {
    ...plain,
    name: 'Camera head, not for steam',
    contact: 'nonCritical',
    steam: 'barred',
    makerMethods: [{ method: 'hydrogenPeroxide' }],
    ...borne,
  },
} as const satisfies Readonly<Record<string, Device>>

export type DeviceKey = keyof typeof devices
