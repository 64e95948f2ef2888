import type { Source } from '#units/source.ts'
import type { Limit } from '../policy.ts'

/* What may be left on a washed instrument. The action level is the limit; between alert and action it passes, said aloud. */

const residues: Source = {
  title: 'ISO 15883-5',
  edition: '2021, as quoted',
  clause: 'alert and action levels, per cm²',
  status: 'secondary',
}

export const soilAnalytes = ['protein', 'organicCarbon', 'carbohydrate', 'haemoglobin', 'atp', 'endotoxin'] as const
export type SoilAnalyte = (typeof soilAnalytes)[number]

export interface SoilLimits {
  readonly name: string
  readonly unit: string
  readonly alert: Limit<number>
  readonly action: Limit<number>
}

function pair(
  id: string,
  name: string,
  rest: { readonly unit: string; readonly alert: number; readonly action: number; readonly actionSource?: Source },
): SoilLimits {
  const { unit, alert, action, actionSource = residues } = rest
  const limit = (level: string, value: number, source: Source): Limit<number> => ({
    id: `soil-${id}-${level}`,
    title: `Left after washing: ${name}, ${level} level`,
    unit,
    value,
    source,
    allowed: { from: value / 100, to: value * 10 },
  })
  return { name, unit, alert: limit('alert', alert, residues), action: limit('action', action, actionSource) }
}

export const soilLimits: Readonly<Record<SoilAnalyte, SoilLimits>> = {
  protein: pair('protein', 'protein', { unit: 'µg/cm²', alert: 3, action: 6.4 }),
  organicCarbon: pair('organic-carbon', 'total organic carbon', { unit: 'µg/cm²', alert: 6, action: 12 }),
  carbohydrate: pair('carbohydrate', 'carbohydrate', { unit: 'µg/cm²', alert: 0.9, action: 1.8 }),
  haemoglobin: pair('haemoglobin', 'haemoglobin', { unit: 'µg/cm²', alert: 1, action: 2.2 }),
  atp: pair('atp', 'ATP', { unit: 'fmol/cm²', alert: 10, action: 22 }),
  endotoxin: pair('endotoxin', 'endotoxin', {
    unit: 'EU per instrument',
    alert: 2.2,
    action: 20,
    actionSource: { ...residues, clause: 'endotoxin, action level from memory', status: 'unverified' },
  }),
}

export const cleaningTestLimits: readonly Limit<number>[] = soilAnalytes.flatMap((analyte) => [
  soilLimits[analyte].alert,
  soilLimits[analyte].action,
])
