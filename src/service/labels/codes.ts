import bwip from 'bwip-js'
import type { LabelText } from '#road/packing/labels/label-text.ts'

/** The codes of a label as they are drawn: rows of dark and light modules, and bars and spaces in turn, in widths of the narrowest. */
export interface LabelCodes {
  readonly modules: number
  readonly rows: readonly (readonly boolean[])[]
  readonly barModules: number | null
  /** Begins with a bar. */
  readonly bars: readonly number[]
}

/** The round's whole id in a DataMatrix; its bare key in a Code 128, which has to be short to be read. */
export function codesOf({ code, key }: LabelText, withBars: boolean): LabelCodes {
  // The named export `raw` is another one, which draws.
  // oxlint-disable-next-line import/no-named-as-default-member
  const [square] = bwip.raw('datamatrix', code)
  if (square === undefined || !('pixs' in square)) throw new TypeError(`no DataMatrix was drawn of ${code}`)
  const { pixs, pixx: modules } = square
  const rows = Array.from({ length: modules }, (_, y) =>
    Array.from({ length: modules }, (_unused, x) => pixs[y * modules + x] === 1),
  )
  if (!withBars) return { modules, rows, barModules: null, bars: [] }
  // oxlint-disable-next-line import/no-named-as-default-member
  const [line] = bwip.raw('code128', key)
  if (line === undefined || !('sbs' in line)) throw new TypeError(`no Code 128 was drawn of ${key}`)
  const bars = Array.from(line.sbs)
  return { modules, rows, barModules: bars.reduce((sum, width) => sum + width, 0), bars }
}

/** A dark rectangle, in mm. */
export interface Dark {
  readonly xMm: number
  readonly yMm: number
  readonly widthMm: number
  readonly heightMm: number
}
