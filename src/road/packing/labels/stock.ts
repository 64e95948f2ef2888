import type { Source } from '#units/source.ts'
import type { Limit } from '../../policy.ts'

/** A size of label, in mm, as it lies in the printer. */
export interface Stock {
  readonly name: string
  readonly widthMm: number
  readonly heightMm: number
}

const commonSizes: Source = {
  title: 'Sizes of labels that are commonly sold on rolls',
  clause: 'common practice, no published source',
  status: 'unverified',
}

const sizes = ['76x51', '100x50', '102x76', '60x40', '70x36'] as const

/** The size that the unit prints on. Any other can be asked for by its two figures. */
export const labelStock: Limit<string> = {
  id: 'label-stock',
  title: 'Size of the labels of packs',
  unit: 'width x height in mm',
  value: '76x51',
  source: commonSizes,
  allowed: { oneOf: sizes },
}

export const offeredStocks: readonly string[] = sizes

const [least, most] = [20, 210] as const

/** What is wanted of a size, for whoever asked for another one. */
export const wantedStock = `width x height in mm such as 76x51, each from ${least} to ${most}`

/** Reads `76x51`; undefined for what is no size of a label. */
export function readStock(text: string): Stock | undefined {
  const [, width, height] = /^(\d{2,3}(?:\.\d)?)x(\d{2,3}(?:\.\d)?)$/.exec(text) ?? []
  const [widthMm, heightMm] = [Number(width), Number(height)]
  const fits = (mm: number) => mm >= least && mm <= most
  return fits(widthMm) && fits(heightMm) ? { name: text, widthMm, heightMm } : undefined
}
