import type { LabelLayout } from '#road/packing/labels/lay-out.ts'
import type { Dark, LabelCodes } from './codes.ts'

/** All that is dark in the codes of a label, in mm: neighbours in a row are one, so that no seam shows between them. */
export function darkParts({ square, bars }: LabelLayout, codes: LabelCodes): readonly Dark[] {
  const inSquare = codes.rows.flatMap((row, y) =>
    runsOf(row).map(({ from, to }) => ({
      xMm: square.xMm + from * square.moduleMm,
      yMm: square.yMm + y * square.moduleMm,
      widthMm: (to - from) * square.moduleMm,
      heightMm: square.moduleMm,
    })),
  )
  if (bars === null || codes.barModules === null) return inSquare
  const narrowMm = bars.widthMm / codes.barModules
  const dark: Dark[] = []
  let xMm = bars.xMm
  for (const [place, width] of codes.bars.entries()) {
    if (place % 2 === 0) dark.push({ xMm, yMm: bars.yMm, widthMm: width * narrowMm, heightMm: bars.heightMm })
    xMm += width * narrowMm
  }
  return [...inSquare, ...dark]
}

function runsOf(row: readonly boolean[]): readonly { readonly from: number; readonly to: number }[] {
  const runs: { from: number; to: number }[] = []
  for (const [place, dark] of row.entries()) {
    const last = runs.at(-1)
    if (!dark) continue
    if (last?.to === place) last.to = place + 1
    else runs.push({ from: place, to: place + 1 })
  }
  return runs
}
