import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { bounded, boundedText } from './bounded.ts'
import type { Content, DocumentDefinition } from './content.ts'
import pdfmake from 'pdfmake/js/index.js'
import { type PrintedPage, printedCaution } from './printed-page.ts'
import { scriptsWithoutLetters } from './scripts.ts'

const fonts = join(dirname(createRequire(import.meta.url).resolve('pdfmake/package.json')), 'fonts/Roboto')

pdfmake.setFonts({
  Roboto: {
    normal: join(fonts, 'Roboto-Regular.ttf'),
    bold: join(fonts, 'Roboto-Medium.ttf'),
    italics: join(fonts, 'Roboto-Italic.ttf'),
    bolditalics: join(fonts, 'Roboto-MediumItalic.ttf'),
  },
})
// What is printed may hold any text: nothing of it is fetched, and no file but the fonts is read.
pdfmake.setUrlAccessPolicy(() => false)
pdfmake.setLocalAccessPolicy((path) => path.startsWith(fonts))

const mostFrameLetters = 160
const ink = '#1d1b17'
const soft = '#55514a'

/** Sets a page in PDF, with what stands on every printed page of the program: whose it is, about what, which of how many, printed when and by whom. */
export async function pdfOf(page: PrintedPage): Promise<Uint8Array> {
  const { printedAt } = page
  // What stands on every page must leave it room.
  const [title, unit, about, printedBy] = [page.title, page.unit, page.about, page.printedBy].map((text) =>
    boundedText(text, mostFrameLetters),
  ) as [string, string, string, string]
  const content = page.content.map(bounded)
  const missing = scriptsWithoutLetters(JSON.stringify({ ...page, content }))
  const definition: DocumentDefinition = {
    info: { title, creator: 'nilgrowth', producer: 'nilgrowth' },
    pageSize: 'A4',
    pageMargins: [42, 58, 42, 74],
    defaultStyle: { font: 'Roboto', fontSize: 9.5, lineHeight: 1.2, color: ink },
    styles: {
      title: { fontSize: 18, bold: true, margin: [0, 0, 0, 4] },
      heading: { fontSize: 12.5, bold: true, margin: [0, 12, 0, 4] },
      soft: { color: soft, fontSize: 8.5 },
      cell: { bold: true, fontSize: 8.5 },
      verdict: { fontSize: 14, bold: true },
    },
    header: () => ({
      margin: [42, 24, 42, 0],
      columns: [
        { text: unit, bold: true, width: '*' },
        { text: about, alignment: 'right', width: 170 },
      ],
    }),
    footer: (current: number, pages: number) => ({
      margin: [42, 8, 42, 0],
      stack: [
        { text: printedCaution, style: 'soft' },
        {
          margin: [0, 4, 0, 0],
          columns: [
            { text: `${about}. Printed ${printedAt} by ${printedBy}`, style: 'soft', width: '*' },
            { text: `Page ${current} of ${pages}`, style: 'soft', alignment: 'right', width: 80 },
          ],
        },
      ],
    }),
    content: [{ text: title, style: 'title' }, ...(missing.length === 0 ? [] : [unprinted(missing)]), ...content],
  }
  return new Uint8Array(await pdfmake.createPdf(definition).getBuffer())
}

/** A name that is not printed must not look as if there were none. */
function unprinted(scripts: readonly string[]): Content {
  const text = `Letters of ${scripts.join(', ')} cannot be printed here and stand as empty boxes. Read them on the screen.`
  return { text, bold: true, margin: [0, 0, 0, 6] }
}
