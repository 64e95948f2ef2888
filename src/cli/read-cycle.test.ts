import assert from 'node:assert/strict'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, test } from 'node:test'
import { runReadCycle } from './read-cycle.ts'

const folder = mkdtempSync(join(tmpdir(), 'read-cycle-'))
after(() => rmSync(folder, { recursive: true }))

/** Heating, a plateau of so many seconds, exhaust; one row a second. */
function logOf(plateaus: readonly number[]): string {
  const rows = ['t;p;T']
  let t = 0
  for (const seconds of plateaus) {
    for (let step = 0; step < 200; step += 1)
      rows.push(`${t++};${(100 + step * 1.05).toFixed(2)};${(40 + step * 0.47).toFixed(2)}`)
    for (let step = 0; step <= seconds; step += 1) rows.push(`${t++};312.00;134.80`)
    for (let step = 0; step < 300; step += 1)
      rows.push(`${t++};${Math.max(100, 300 - step * 4).toFixed(2)};${Math.max(60, 130 - step * 0.5).toFixed(2)}`)
  }
  return rows.join('\n')
}
function file(name: string, text: string): string {
  const path = join(folder, name)
  writeFileSync(path, text)
  return path
}
const map = file(
  'map.json',
  JSON.stringify({
    time: { column: 't', format: 'seconds' },
    pressure: { column: 'p', unit: 'kPa', gauge: false },
    reference: { column: 'T', unit: 'C' },
  }),
)
async function run(
  args: string[],
  stdin: string | Uint8Array = '',
): Promise<{ code: number; out: string; err: string }> {
  let out = ''
  let err = ''
  const stream = async function* () {
    yield stdin
  }
  const code = await runReadCycle(args, {
    stdin: stream(),
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text) },
  })
  return { code, out, err }
}
const good = file('good.csv', logOf([200]))

test('read-cycle exits 0, 3 and 4 by the verdict', async () => {
  assert.equal((await run([good, '--program', 'porous-134', '--map', map])).code, 0)
  assert.equal((await run([file('short.csv', logOf([100])), '--program', 'porous-134', '--map', map])).code, 3)
  const cut = file('cut.csv', logOf([200]).split('\n').slice(0, 350).join('\n'))
  assert.equal((await run([cut, '--program', 'porous-134', '--map', map])).code, 4)
})

test('read-cycle --json prints the reading, also from standard input', async () => {
  const { code, out } = await run(['-', '--program', 'porous-134', '--map', map, '--json'], logOf([200]))
  const reading: unknown = JSON.parse(out)
  assert.equal(code, 0)
  assert.ok(typeof reading === 'object' && reading !== null)
  assert.equal(Reflect.get(reading, 'verdict'), 'met')
  assert.equal(Reflect.get(reading, 'holdingSeconds'), 200)
  assert.equal(Reflect.get(reading, 'cycles'), 1)
})

test('read-cycle lists several cycles with the worst exit code, or gives one by number', async () => {
  const several = file('several.csv', logOf([200, 100, 200]))
  const { code, out } = await run([several, '--program', 'porous-134', '--map', map, '--json'])
  const list: unknown = JSON.parse(out)
  assert.ok(Array.isArray(list))
  assert.deepEqual(
    list.map((one: unknown) => Reflect.get(Object(one), 'verdict')),
    ['met', 'notMet', 'met'],
  )
  assert.equal(code, 3)
  assert.equal((await run([several, '--program', 'porous-134', '--map', map, '--cycle', '3'])).code, 0)
  const none = await run([several, '--program', 'porous-134', '--map', map, '--cycle', '4'])
  assert.equal(none.code, 2)
  assert.match(none.err, /^cycle: wanted a number from 1 to 3, .*current value is 4\n$/)
})

test('read-cycle prints for people: verdict, criteria with sources, findings, caution', async () => {
  const { out } = await run([good, '--program', 'porous-134', '--map', map])
  for (const words of [
    'Cycle 1 of 1: met',
    'Holding time: 200 s, limit 180 s',
    'unverified, check your local standard',
    'not evaluable',
    'An aid to trained staff',
  ])
    assert.ok(out.includes(words), `${words} in ${out}`)
})

test('read-cycle takes a programme from a file and the volume from the line', async () => {
  const program = { sterilisationC: 134, bandK: 3, holdSeconds: 250, chamberLitres: 600, maxDifferenceK: 2 }
  const path = file('program.json', JSON.stringify(program))
  const { code, out } = await run([good, '--program', path, '--map', map, '--volume', '1000'])
  assert.equal(code, 3)
  assert.match(out, /30 s above 800 L/)
})

test('read-cycle exits 2 with one clear line for what it cannot use', async () => {
  const rows: [string[], RegExp][] = [
    [[], /^arguments: wanted read-cycle FILE/],
    [[good, '--program', 'porous-1', '--map', map], /^program: wanted one of porous-134/],
    [[good, '--program', join(folder, 'none.json')], /^program: wanted a file that can be read/],
    [
      [good, '--program', file('bad.json', '{"sterilisationC": "hot"}')],
      /sterilisationC: wanted number, current value is "hot"/,
    ],
    [[join(folder, 'none.csv'), '--program', 'porous-134'], /^file: wanted a file that can be read, .*ENOENT/],
    [[good, '--program', 'porous-134', '--map', file('m.json', '{')], /^map .*wanted JSON/],
    [[good, '--program', 'porous-134', '--map', file('m2.json', '{"time": 1}')], /time: wanted object/],
    [[good, '--program', 'porous-134', '--volume', '0'], /^--volume: wanted litres > 0/],
    [[good, '--program', 'porous-134', '--cycle', '1.5'], /^--cycle: wanted a whole number/],
    [[file('empty.csv', ''), '--program', 'porous-134'], /^log: wanted .*an empty file/],
    [[folder, '--program', 'porous-134'], /EISDIR/],
    [[good, '--program', 'porous-134', '--nonsense'], /^arguments/],
  ]
  for (const [args, expected] of rows) {
    const { code, out, err } = await run(args)
    assert.equal(code, 2, args.join(' '))
    assert.equal(out, '')
    assert.match(err, expected)
    assert.equal(err.trim().split('\n').length, 1)
  }
})

test('read-cycle reads UTF-16 and the old Windows alphabet', async () => {
  const text = logOf([200]).replace('t;p;T', 't;p;T °C')
  const wide = Buffer.from(`\uFEFF${text}`, 'utf16le')
  const mapWide = file(
    'wide.json',
    JSON.stringify({
      time: { column: 't', format: 'seconds' },
      pressure: { column: 'p', unit: 'kPa' },
      reference: { column: 'T °C', unit: 'C' },
    }),
  )
  assert.equal((await run(['-', '--program', 'porous-134', '--map', mapWide], wide)).code, 0)
  assert.equal((await run(['-', '--program', 'porous-134', '--map', mapWide], Buffer.from(text, 'latin1'))).code, 0)
})
