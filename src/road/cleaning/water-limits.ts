import type { Source } from '#units/source.ts'
import type { Limit } from '../policy.ts'

/* What water may hold, by the place where it is used. */

export const waterUses = ['preclean', 'wash', 'finalRinse', 'steamFeed', 'condensate'] as const
export type WaterUse = (typeof waterUses)[number]

/** What is measured, each in one unit; hardness is sent in any unit and compared in mg/L as calcium carbonate. */
export const waterProperties = [
  'hardness',
  'conductivity',
  'ph',
  'chloride',
  'silicate',
  'phosphate',
  'iron',
  'cadmium',
  'lead',
  'heavyMetals',
  'evaporationResidue',
  'endotoxin',
  'bacteria',
  'organicCarbon',
] as const
export type WaterProperty = (typeof waterProperties)[number]

export const waterUnits: Readonly<Record<WaterProperty, string>> = {
  hardness: 'mg/L CaCO3',
  conductivity: 'µS/cm',
  ph: 'pH',
  chloride: 'mg/L',
  silicate: 'mg/L',
  phosphate: 'mg/L',
  iron: 'mg/L',
  cadmium: 'mg/L',
  lead: 'mg/L',
  heavyMetals: 'mg/L',
  evaporationResidue: 'mg/L',
  endotoxin: 'EU/mL',
  bacteria: 'CFU/mL',
  organicCarbon: 'mg/L',
}

const st108: Source = {
  title: 'ANSI/AAMI ST108',
  edition: '2023, Table 2, from memory',
  clause: 'other printed figures differ',
  status: 'unverified',
}
const annex: Source = { title: 'EN 285 and EN 13060', clause: 'annex, feed water and condensate', status: 'confirmed' }
const recalled: Source = { ...annex, clause: 'annex, feed water and condensate, from memory', status: 'unverified' }

export interface WaterLimit {
  readonly use: WaterUse
  readonly property: WaterProperty
  readonly kind: 'most' | 'least'
  readonly limit: Limit<number>
}

const useWords: Readonly<Record<WaterUse, { readonly id: string; readonly name: string }>> = {
  preclean: { id: 'preclean', name: 'pre-cleaning' },
  wash: { id: 'wash', name: 'washing' },
  finalRinse: { id: 'final-rinse', name: 'last rinse' },
  steamFeed: { id: 'steam-feed', name: 'feed of the steam' },
  condensate: { id: 'condensate', name: 'condensate' },
}
const propertyWords: Readonly<Record<WaterProperty, string>> = {
  hardness: 'hardness',
  conductivity: 'conductivity',
  ph: 'pH',
  chloride: 'chloride',
  silicate: 'silicate',
  phosphate: 'phosphate',
  iron: 'iron',
  cadmium: 'cadmium',
  lead: 'lead',
  heavyMetals: 'other heavy metals',
  evaporationResidue: 'residue on evaporation',
  endotoxin: 'endotoxin',
  bacteria: 'bacteria',
  organicCarbon: 'total organic carbon',
}

type Row = readonly [WaterProperty, number, Source, ('most' | 'least')?]

function rows(use: WaterUse, list: readonly Row[]): readonly WaterLimit[] {
  return list.map(([property, value, source, kind = 'most']) => ({
    use,
    property,
    kind,
    limit: {
      id: `water-${useWords[use].id}-${property.toLowerCase()}-${kind}`,
      title: `Water, ${useWords[use].name}: ${kind === 'most' ? 'most' : 'least'} ${propertyWords[property]}`,
      unit: waterUnits[property],
      value,
      source,
      allowed: { from: value / 100, to: value * 10 },
    },
  }))
}

const utility: readonly Row[] = [
  ['hardness', 150, st108],
  ['conductivity', 500, st108],
  ['ph', 6.5, st108, 'least'],
  ['ph', 9.5, st108],
  ['chloride', 250, st108],
  ['silicate', 50, st108],
  ['phosphate', 5, st108],
  ['bacteria', 500, st108],
]

export const waterTable: readonly WaterLimit[] = Object.freeze([
  ...rows('preclean', utility),
  ...rows('wash', utility),
  ...rows('finalRinse', [
    ['hardness', 1, st108],
    ['conductivity', 10, st108],
    ['ph', 5, st108, 'least'],
    ['ph', 7.5, st108],
    ['chloride', 1, st108],
    ['silicate', 1, st108],
    ['phosphate', 1, st108],
    ['endotoxin', 10, st108],
    ['bacteria', 10, st108],
    ['organicCarbon', 1, st108],
  ]),
  ...rows('steamFeed', [
    ['hardness', 2, recalled],
    ['conductivity', 5, recalled],
    ['ph', 5, annex, 'least'],
    ['ph', 7.5, annex],
    ['chloride', 2, annex],
    ['silicate', 1, annex],
    ['phosphate', 0.5, recalled],
    ['iron', 0.2, annex],
    ['cadmium', 0.005, annex],
    ['lead', 0.05, annex],
    ['heavyMetals', 0.1, annex],
    ['evaporationResidue', 10, annex],
  ]),
  ...rows('condensate', [
    ['hardness', 2, recalled],
    ['conductivity', 3, recalled],
    ['ph', 5, annex, 'least'],
    ['ph', 7, annex],
    ['chloride', 0.1, annex],
    ['silicate', 0.1, annex],
    ['phosphate', 0.1, recalled],
    ['iron', 0.1, annex],
    ['cadmium', 0.005, annex],
    ['lead', 0.05, annex],
    ['heavyMetals', 0.1, annex],
  ]),
])

export const foilTestEveryDays: Limit<number> = {
  id: 'foil-test-every-days',
  title: 'Longest time between foil tests of an ultrasonic bath',
  unit: 'days',
  value: 92,
  source: {
    title: 'Foil test of ultrasonic baths, method sheet after HTM 2030',
    clause: 'at commissioning and quarterly',
    status: 'confirmed',
  },
  allowed: { from: 1, to: 366 },
}

export const moistSoakAlarmMinutes: Limit<number> = {
  id: 'moist-soak-alarm-minutes',
  title: 'Wait from last use to soak that is an alarm when the set was kept moist',
  unit: 'minutes',
  value: 720,
  source: { title: 'Moist transport', clause: 'the sources limit only dry transport', status: 'proposal' },
  allowed: { from: 60, to: 2880 },
}

export const waterLimits: readonly Limit<number>[] = [
  ...waterTable.map((row) => row.limit),
  foilTestEveryDays,
  moistSoakAlarmMinutes,
]
