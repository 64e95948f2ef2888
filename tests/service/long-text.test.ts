import assert from 'node:assert/strict'
import { test } from 'node:test'
import { boundedText, mostPrintedLetters } from '#service/printing/bounded.ts'
import { pdfOf } from '#service/printing/pdf.ts'
import { printAside } from '#service/printing/print-aside.ts'
import { rows } from '#service/printing/print-parts.ts'
import { pdfText } from '../support/pdf-text.ts'

const page = { title: 'Load a', unit: 'Harbour Road', about: 'Load a', printedAt: 'today', printedBy: 'Ada' }
const tableOf = (why: string) => rows(['Pack', 'Outcome', 'Why'], [['p', 'Released', why]], [160, 90, '*'])
const printed = async (why: string) =>
  (await pdfText(await pdfOf({ ...page, content: [tableOf(why), 'The end of the page'] }))).join('\n')

test('pdfOf: a reason that is longer than a page is printed to its last word', async () => {
  const text = await printed(`${'word '.repeat(590)}LASTWORD`)
  assert.equal(text.match(/word/g)?.length, 590)
  assert.match(text, /LASTWORD/)
  assert.match(text, /The end of the page/)
})

test('pdfOf: of a very long text it is said how much was left out', async () => {
  const text = (await printed('word '.repeat(200_000))).replaceAll(/\s+/g, '')
  assert.match(text, /\[997000of1000000charactersareleftouthere:readthemonthescreen\]/)
  assert.match(text, /Theendofthepage/)
})

test('boundedText: as it is up to the bound, and no half of a letter is left', () => {
  const most = 'x'.repeat(mostPrintedLetters)
  assert.equal(boundedText(most), most)
  assert.match(boundedText(`${most.slice(1)}😀 and more`), /^x{2999} … \[11 of 3010 characters are left out/)
})

test('printAside: a page that is not set in time is given up, and the next one is printed', async () => {
  const whole = { ...page, content: Array.from({ length: 20_000 }, (_, line) => `line ${line}`) }
  const [late, next] = await Promise.all([printAside(whole, 0.2), printAside({ ...page, content: ['short'] })])
  assert.deepEqual(late, { kind: 'tooLong' })
  assert.equal(next.kind, 'set')
})
