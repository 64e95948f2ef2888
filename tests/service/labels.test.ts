import assert from 'node:assert/strict'
import { execFileSync } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { type AddressInfo, createServer } from 'node:net'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader'
import { runMain } from '#cli/main.ts'
import { readCode } from '#road/scanning/read-code.ts'
import { cleanAndDry, handWash } from '../support/road-history-parts.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { furnishOneSet, openUnit, record } from './hand.ts'

const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-labels-'))
after(() => rmSync(folder, { recursive: true, force: true }))

before(async () => {
  const wasm = readFileSync(createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm'))
  await prepareZXingModule({ overrides: { wasmBinary: new Uint8Array(wasm).buffer }, fireImmediately: true })
})

async function sealOnePack(service: RunningService): Promise<void> {
  await openUnit(service)
  await furnishOneSet(service, { makerMethods: [{ method: 'steam' }] })
  const round = 'round:a'
  const answers = [
    await record(service, 'wash-recorded', '02:00', { wash: 'wash:a', rounds: [round], how: handWash }),
    await record(service, 'inspected', '02:30', { round, ...cleanAndDry }),
    await record(service, 'pack-sealed', '03:00', {
      round,
      wrap: 'doubleWrap',
      insideIndicator: { type: '5', lot: 'I-5' },
      outsideIndicator: { type: '1', lot: 'O-1' },
      counted: [{ device: 'device:d', count: 1 }],
      massKg: 3,
      implant: false,
    }),
  ]
  for (const { status, body } of answers) assert.equal(status, 201, JSON.stringify(body))
}

interface Seen {
  readonly widthMm: number
  readonly heightMm: number
  readonly pages: number
  readonly codes: readonly string[]
}

/** Prints a PDF into a picture by another program, and reads the codes in it by another library. */
async function seenOn(pdf: Uint8Array, name: string): Promise<Seen> {
  const file = join(folder, `${name}.pdf`)
  writeFileSync(file, pdf)
  const info = execFileSync('pdfinfo', [file], { encoding: 'utf8' })
  const [, width, height] = /Page size:\s+([\d.]+) x ([\d.]+) pts/.exec(info) ?? []
  // As a common label printer draws it: 203 dots in an inch.
  execFileSync('pdftoppm', ['-r', '203', '-png', '-singlefile', file, join(folder, name)])
  const read = await readBarcodes(new Uint8Array(readFileSync(join(folder, `${name}.png`))))
  return {
    widthMm: (Number(width) * 25.4) / 72,
    heightMm: (Number(height) * 25.4) / 72,
    pages: Number(/Pages:\s+(\d+)/.exec(info)?.[1]),
    codes: read.map(({ bytesECI }) => new TextDecoder().decode(bytesECI)),
  }
}

test('a label goes round: printed as PDF in true mm, made a picture, read, and found; as ZPL it reaches a printer', async () => {
  const jobs: string[] = []
  const printer = createServer((socket) => {
    let job = ''
    socket.setEncoding('utf8')
    socket.on('data', (text: string) => (job += text))
    socket.on('end', () => jobs.push(job))
  })
  // A test that fails must not be kept open by it.
  printer.listen(0, '127.0.0.1').unref()
  await once(printer, 'listening')
  const { port } = printer.address() as AddressInfo
  await using service = await runService({ environment: { NILGROWTH_LABEL_PRINTER: `127.0.0.1:${port}` } })
  await sealOnePack(service)
  const label = (query: string) => fetch(`${service.url}/api/rounds/round:a/label?${query}`)

  for (const stock of ['76x51', '60x40', '100x50']) {
    // oxlint-disable-next-line no-await-in-loop: one picture after the other
    const answer = await label(`as=pdf&bars=yes&copies=2&stock=${stock}`)
    assert.equal(answer.headers.get('content-type'), 'application/pdf')
    // oxlint-disable-next-line no-await-in-loop: one picture after the other
    const seen = await seenOn(new Uint8Array(await answer.arrayBuffer()), stock)
    assert.equal(`${seen.widthMm.toFixed(0)}x${seen.heightMm.toFixed(0)}`, stock)
    assert.equal(seen.pages, 2)
    const codes = seen.codes.map((code) => readCode(code, 2026))
    assert.deepEqual(
      codes.map((code) => (code.is === 'own' ? code.subject : code.is === 'text' ? code.text : code.is)).toSorted(),
      ['a', 'round:a'],
    )
  }

  const svg = await (await label('as=svg')).text()
  assert.match(svg, /<svg [^>]*width="76mm" height="51mm"/)
  assert.match(svg, /Not treated yet:/)
  assert.doesNotMatch(svg, /sterile/i)

  const zpl = await (await label('as=zpl&copies=3')).text()
  assert.match(zpl, /^\^XA\n\^CI28\n\^PW608\n\^LL408\n/)
  assert.match(zpl, /\^BXN,6,200\^FH_\^FDround:a\^FS/)
  const sent = await service.ask('POST', '/api/rounds/round:a/label/print', { copies: 3 })
  assert.deepEqual([sent.status, sent.body], [200, { sent: true }])
  assert.equal(jobs.length, 1)
  // The moment of printing stands on a label that waits; all else is what the download holds.
  const still = (text: string) => text.replace(/Label printed [^^]*/, '')
  assert.equal(still(jobs[0] ?? ''), still(zpl))

  printer.close()
  await once(printer, 'close')
  const away = await service.ask('POST', '/api/rounds/round:a/label/print', {})
  assert.equal(away.status, 503, JSON.stringify(away.body))
})

test('a label that cannot be made says what was wanted, and nothing is sent where no printer is set', async () => {
  await using service = await runService()
  await openUnit(service)
  await furnishOneSet(service)
  const problems = async (path: string) => {
    const { status, body } = await service.ask('GET', path)
    return [status, (body as { detail: string }).detail]
  }
  assert.deepEqual(await problems('/api/rounds/round:a/label?as=pdf'), [
    422,
    'round: wanted a round whose pack is sealed, current value is "a"',
  ])
  assert.equal((await problems('/api/rounds/round:none/label?as=pdf'))[0], 404)
  assert.equal((await service.ask('POST', '/api/rounds/round:a/label/print', {})).status, 501)
  assert.deepEqual((await service.ask('GET', '/api/label-printer')).body, { isSet: false })
})

test('the command makes the same label, and says what is wrong with what it is told', async () => {
  await using service = await runService()
  await sealOnePack(service)
  const ran = async (...args: string[]) => {
    let [out, err] = ['', '']
    const io = {
      stdin: (async function* () {})(),
      stdout: { write: (text: string) => (out += text) },
      stderr: { write: (text: string) => (err += text) },
    }
    return { code: await runMain(['label', ...args, '--data', service.file], io), out, err }
  }
  const text = await ran('a')
  assert.equal(text.code, 0, text.err)
  assert.match(text.out, /^The set\nNot treated yet: scan before use\na\nPacked 10 Jun 2026 03:00 by Ada\n/)
  const file = join(folder, 'cli.pdf')
  assert.equal((await ran('round:a', '--as', 'pdf', '--out', file)).code, 0)
  assert.deepEqual((await seenOn(readFileSync(file), 'cli')).codes, [']d1round:a'])
  const wrong = [
    [
      ['a', '--stock', '5x5'],
      'stock: wanted width x height in mm such as 76x51, each from 20 to 210, current value is "5x5"\n',
    ],
    [
      ['a', '--stock', '30x20'],
      'stock: wanted a larger label: what must be said does not fit on it in letters that can be read, current value is "30x20"\n',
    ],
    [
      ['a', '--print', 'nowhere'],
      '--print: wanted a name or address and a port, such as 10.0.0.7:9100, current value is "nowhere"\n',
    ],
    [['a', '--copies', '0'], '--copies: wanted a whole number from 1 to 20, current value is "0"\n'],
  ] as const
  for (const [args, says] of wrong) {
    // oxlint-disable-next-line no-await-in-loop: one command after the other
    const { code, err } = await ran(...args)
    assert.deepEqual([code, err], [2, says])
  }
})
