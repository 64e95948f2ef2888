import type { Bodies } from '#road/kinds.ts'
import type { DeviceKey } from './devices.ts'

export type SetId = Bodies['set-registered']['set']
export type Wrap = Bodies['pack-sealed']['wrap']

export interface SetType {
  readonly name: string
  readonly how: number
  readonly sheet: readonly (readonly [DeviceKey, number])[]
  readonly wrap: Wrap
  readonly massKg: number
  readonly implant: boolean
  readonly insulated: boolean
  readonly lumens: boolean
}

const common = { implant: false, insulated: true, lumens: true } as const

/** The kinds of set, and how many of each there are: thirty sets in all. */
export const setTypes = {
  basic: {
    ...common,
    name: 'Laparoscopy basic',
    how: 6,
    sheet: [
      ['handle-set', 1],
      ['grasper', 3],
      ['dissector', 1],
      ['scissors', 1],
      ['suction', 1],
      ['hook', 1],
    ],
    wrap: 'rigidContainer',
    massKg: 6.4,
  },
  ports: {
    ...common,
    name: 'Ports',
    how: 6,
    sheet: [
      ['cannula-11', 2],
      ['cannula-6', 3],
      ['obturator', 2],
      ['gas-needle', 1],
    ],
    wrap: 'doubleWrap',
    massKg: 2.1,
    insulated: false,
  },
  scope: {
    ...common,
    name: 'Telescope',
    how: 6,
    sheet: [
      ['telescope-10-30', 1],
      ['light-cable', 1],
    ],
    wrap: 'doublePouch',
    massKg: 0.9,
    insulated: false,
    lumens: false,
  },
  chole: {
    ...common,
    name: 'Cholecystectomy',
    how: 4,
    sheet: [
      ['clip-applier', 1],
      ['dissector', 1],
      ['grasper', 1],
    ],
    wrap: 'doubleWrap',
    massKg: 1.6,
  },
  hernia: {
    ...common,
    name: 'Hernia with mesh',
    how: 3,
    sheet: [
      ['mesh-piece', 1],
      ['needle-holder', 1],
      ['grasper', 2],
    ],
    wrap: 'doubleWrap',
    massKg: 1.4,
    implant: true,
  },
  gynae: {
    ...common,
    name: 'Gynaecology',
    how: 3,
    sheet: [
      ['uterus-probe', 1],
      ['tenaculum', 1],
      ['needle-holder', 1],
      ['grasper', 1],
    ],
    wrap: 'doubleWrap',
    massKg: 2.2,
  },
  bariatric: {
    ...common,
    name: 'Bariatric',
    how: 2,
    sheet: [
      ['liver-retractor', 1],
      ['bowel-grasper', 3],
      ['needle-holder', 2],
    ],
    wrap: 'rigidContainer',
    massKg: 5.8,
  },
} as const satisfies Readonly<Record<string, SetType>>

export type SetTypeKey = keyof typeof setTypes

/** What every case opens, besides the set of its procedure. */
export const everyCase: readonly SetTypeKey[] = ['basic', 'ports', 'scope']

export interface OwnedSet {
  readonly id: SetId
  readonly key: string
  readonly type: SetTypeKey
}

export const setTypeKeys = Object.keys(setTypes) as SetTypeKey[]

export const ownedSets: readonly OwnedSet[] = setTypeKeys.flatMap((type) =>
  Array.from({ length: setTypes[type].how }, (_, index) => {
    const key = `${type}-${index + 1}`
    return { id: `set:${key}` as const, key, type }
  }),
)
