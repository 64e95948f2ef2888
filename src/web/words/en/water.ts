import type { HardnessUnit } from '#workings/physics/hardness.ts'
import type { SoilOutcome } from '#road/cleaning/cleaning-test.ts'
import type { SoilAnalyte } from '#road/cleaning/cleaning-test-limits.ts'
import type { WaterProperty, WaterUse } from '#road/cleaning/water-limits.ts'
import type { Bodies } from '#road/kinds.ts'

const uses: Record<WaterUse, string> = {
  preclean: 'Pre-cleaning',
  wash: 'Washing',
  finalRinse: 'Last rinse',
  steamFeed: 'Feed of the steam',
  condensate: 'Condensate',
}
const treatments: Record<Bodies['outlet-registered']['treatment'], string> = {
  none: 'As it comes',
  softened: 'Softened',
  deionised: 'Deionised',
  reverseOsmosis: 'Reverse osmosis',
  distilled: 'Distilled',
}
const properties: Record<WaterProperty, string> = {
  hardness: 'Hardness',
  conductivity: 'Conductivity',
  ph: 'pH',
  chloride: 'Chloride',
  silicate: 'Silicate',
  phosphate: 'Phosphate',
  iron: 'Iron',
  cadmium: 'Cadmium',
  lead: 'Lead',
  heavyMetals: 'Other heavy metals',
  evaporationResidue: 'Residue on evaporation',
  endotoxin: 'Endotoxin',
  bacteria: 'Bacteria',
  organicCarbon: 'Organic carbon',
}
const hardness: Record<HardnessUnit, string> = {
  mgPerLCaCO3: 'mg/L as CaCO3',
  mmolPerL: 'mmol/L',
  germanDegrees: 'German degrees',
  frenchDegrees: 'French degrees',
  clarkDegrees: 'Clark degrees',
  grainsPerUsGallon: 'Grains per US gallon',
}
const analytes: Record<SoilAnalyte, string> = {
  protein: 'Protein',
  organicCarbon: 'Organic carbon',
  carbohydrate: 'Carbohydrate',
  haemoglobin: 'Haemoglobin',
  atp: 'ATP',
  endotoxin: 'Endotoxin',
}
const outcomes: Record<SoilOutcome, string> = {
  pass: 'Passed',
  alert: 'Passed, at the alert level',
  action: 'Not clean: wash again',
}

/** Words of water and of tests of cleaning. */
export const waterWords = {
  title: 'Water',
  lead: 'Every outlet with its last sample, held against the limits of its use.',
  none: 'No outlet is registered yet.',
  neverSampled: 'never sampled',
  sampled: 'last sampled',
  ago: 'ago',
  good: 'Within its limits.',
  registerTitle: 'Register an outlet',
  register: 'Register the outlet',
  name: 'Name',
  key: 'Key',
  use: 'Used for',
  treatment: 'Treatment',
  sampleTitle: 'Record a sample',
  sample: 'Record the sample',
  outlet: 'Outlet',
  hardnessUnit: 'Unit of the hardness',
  organism: 'What grew, if anything',
  noFigure: 'no figure is given',
  open: 'Water and its samples',
  from: 'Water from',
  test: 'Test of cleaning',
  analyte: 'What was measured',
  value: (unit: string) => `Result, ${unit}`,
  method: 'Method',
  recordTest: 'Record the test',
  device: 'Which instrument',
  trend: {
    title: 'Tests of cleaning over time',
    lead: 'What was left after each wash that was tested, against the alert and the action level.',
    none: 'No wash was tested for this yet. A test is recorded with a washed set, at its inspection.',
    analyte: 'Measured',
    by: 'Shown by',
    groupings: { washer: 'Washer', device: 'Instrument' },
    manual: 'Washed by hand',
    notStated: 'Not stated',
    all: 'All',
    only: 'In the picture',
    chart: (analyte: string, group: string) => `${analyte} after washing, ${group}, over time`,
    alert: (limit: string) => `Alert, from ${limit}`,
    action: (limit: string) => `Action, above ${limit}`,
    tests: 'Tests',
    last: 'Last',
    highest: 'Highest',
    alerts: 'At alert',
    actions: 'Above action',
  },
  results: 'Tests of cleaning since the last wash',
  outcomes,
  uses,
  treatments,
  properties,
  hardness,
  analytes,
} as const
