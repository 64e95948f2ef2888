import { dirname, join } from 'node:path'
import { createRequire } from 'node:module'
import type { LabelLayout } from '#road/packing/labels/lay-out.ts'
import type { LabelText } from '#road/packing/labels/label-text.ts'
import type { LabelCodes } from './codes.ts'
import { darkParts } from './dark-parts.ts'

/** As much of the library as is used here. Its published types bring those of a browser along, which no service has. */
interface Pdfmake {
  setFonts(fonts: Readonly<Record<string, { readonly normal: string; readonly bold: string }>>): void
  setLocalAccessPolicy(mayOpen: (path: string) => boolean): void
  setUrlAccessPolicy(mayFetch: (url: string) => boolean): void
  createPdf(document: unknown): { getBuffer(): Promise<Uint8Array> }
}

const require = createRequire(import.meta.url)
const pdfmake = require('pdfmake') as Pdfmake

const fonts = join(dirname(require.resolve('pdfmake/package.json')), 'fonts/Roboto')
pdfmake.setFonts({
  Roboto: { normal: join(fonts, 'Roboto-Regular.ttf'), bold: join(fonts, 'Roboto-Medium.ttf') },
})
// The library may open its two fonts and nothing else, here or elsewhere.
pdfmake.setLocalAccessPolicy((path) => path.startsWith(fonts))
pdfmake.setUrlAccessPolicy(() => false)

/** A label as PDF: a page of exactly its size for each copy, so that it is printed without scaling. */
export async function pdfLabel(
  text: LabelText,
  layout: LabelLayout,
  { codes, copies }: { readonly codes: LabelCodes; readonly copies: number },
): Promise<Uint8Array> {
  const { widthMm, heightMm } = layout.stock
  const once = contentOf(layout, codes)
  const pages = Array.from({ length: copies }, (_, page) => [
    ...(page === 0 ? [] : [{ text: '', pageBreak: 'before' }]),
    ...once(),
  ])
  const document = {
    pageSize: { width: points(widthMm), height: points(heightMm) },
    pageMargins: 0,
    info: { title: `${text.title}, ${text.key}` },
    defaultStyle: { font: 'Roboto' },
    content: pages.flat(),
  }
  return new Uint8Array(await pdfmake.createPdf(document).getBuffer())
}

/** Anew for each page: the library writes into what it is given. */
function contentOf(layout: LabelLayout, codes: LabelCodes): () => readonly object[] {
  const dark = darkParts(layout, codes)
  return () => [
    {
      absolutePosition: { x: 0, y: 0 },
      canvas: dark.map(({ xMm, yMm, widthMm, heightMm }) => ({
        type: 'rect',
        x: points(xMm),
        y: points(yMm),
        w: points(widthMm),
        h: points(heightMm),
        color: 'black',
        lineWidth: 0,
      })),
    },
    ...layout.lines.map(({ text, xMm, yMm, sizeMm, strong }) => ({
      absolutePosition: { x: points(xMm), y: points(yMm) },
      text,
      bold: strong,
      noWrap: true,
      fontSize: points(sizeMm),
    })),
  ]
}

function points(mm: number): number {
  return (mm * 72) / 25.4
}
