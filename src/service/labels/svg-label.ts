import type { LabelLayout } from '#road/packing/labels/lay-out.ts'
import type { LabelText } from '#road/packing/labels/label-text.ts'
import type { LabelCodes } from './codes.ts'
import { darkParts } from './dark-parts.ts'

/** A label as a picture, to be looked at before it is printed. */
export function svgLabel(text: LabelText, layout: LabelLayout, codes: LabelCodes): string {
  const { widthMm, heightMm } = layout.stock
  const dark = darkParts(layout, codes).map(
    (each) => `M${mm(each.xMm)} ${mm(each.yMm)}h${mm(each.widthMm)}v${mm(each.heightMm)}h-${mm(each.widthMm)}z`,
  )
  const lines = layout.lines.map(
    ({ text: line, xMm, yMm, sizeMm, strong }) =>
      `<text x="${mm(xMm)}" y="${mm(yMm + sizeMm * 0.95)}" font-size="${mm(sizeMm)}"${strong ? ' font-weight="700"' : ''}>${plain(line)}</text>`,
  )
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${widthMm}mm" height="${heightMm}mm" viewBox="0 0 ${widthMm} ${heightMm}" font-family="Arial, Helvetica, sans-serif">`,
    `<title>${plain(`${text.title}, ${text.key}`)}</title>`,
    `<rect width="${widthMm}" height="${heightMm}" fill="#fff"/>`,
    ...lines,
    `<path d="${dark.join('')}" shape-rendering="crispEdges"/>`,
    '</svg>\n',
  ].join('\n')
}

function mm(length: number): string {
  return String(Number(length.toFixed(3)))
}

function plain(text: string): string {
  return text.replaceAll(/[&<>"']/g, (sign) => `&#${sign.codePointAt(0) ?? 0};`)
}
