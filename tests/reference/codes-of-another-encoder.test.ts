import assert from 'node:assert/strict'
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { before, test } from 'node:test'
import { toBuffer } from 'bwip-js'
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader'
import { readCode } from '#road/scanning/read-code.ts'

/*
 * Codes that another library drew and a third one read from the picture: neither knows ours. What is said in brackets, what the
 * scanner would send with its symbology identifier and separators, and what we read must be the same.
 */

before(async () => {
  const wasm = readFileSync(createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm'))
  await prepareZXingModule({ overrides: { wasmBinary: new Uint8Array(wasm).buffer }, fireImmediately: true })
})

async function scanned(symbol: string, text: string): Promise<string> {
  const png = await toBuffer({ bcid: symbol, text, scale: 3, backgroundcolor: 'FFFFFF', padding: 10 })
  const [read] = await readBarcodes(new Uint8Array(png))
  assert.ok(read !== undefined, `${symbol} was not found in the picture`)
  return new TextDecoder().decode(read.bytesECI)
}

const labels = [
  '(01)09506000134352(17)301231(10)AB-7(21)S1',
  '(01)09506000134352(11)260200(10)L/4.2',
  '(8003)09506000134352S77',
  '(8004)95060001ABC-1',
  '(00)376104250021234569',
  // Elements of other trades: the measure has a length of its own, the others end at a separator.
  '(01)09506000134352(3103)001750(422)056(10)Z9',
] as const

for (const symbol of ['gs1datamatrix', 'gs1-128', 'gs1qrcode']) {
  for (const label of labels) {
    test(`${symbol} ${label} is read as it is printed`, async () => {
      const sent = await scanned(symbol, label)
      const [bySymbol, byHand] = [readCode(sent, 2026), readCode(label, 2026)]
      assert.ok(bySymbol.is === 'elements', JSON.stringify(bySymbol))
      assert.ok(byHand.is === 'elements')
      const bracketed = bySymbol.elements.map(({ identifier, data }) => `(${identifier})${data}`).join('')
      assert.equal(bracketed, label)
      assert.deepEqual(bySymbol.product, byHand.product)
    })
  }
}

test('our own key goes through a DataMatrix and a Code 128 unchanged', async () => {
  for (const symbol of ['datamatrix', 'code128']) {
    const read = readCode(await scanned(symbol, 'round:lap-a-261125-0931'), 2026)
    assert.equal(read.is === 'own' && read.subject, 'round:lap-a-261125-0931', symbol)
  }
})
