import assert from 'node:assert/strict'
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, test } from 'node:test'
import { z } from 'zod'
import { SteamCycleReading } from '#workings/steam/reading.ts'

const root = join(import.meta.dirname, '../..')
const Points = z.array(z.tuple([z.number(), z.number()]))
const Case = z.object({
  vol: z.number(),
  tset: z.number(),
  p: Points,
  ref: Points,
  loads: z.array(Points),
  top: Points,
  expected: z.object({
    equilibrationS: z.number(),
    holdS: z.number(),
    maxT: z.number(),
    maxSpreadK: z.number(),
    satMin: z.number(),
    satMax: z.number(),
    topExcess60: z.number(),
    topExcessAfter: z.number(),
    fail: z.array(z.string()),
  }),
})
type Case = z.infer<typeof Case>
type Points = z.infer<typeof Points>

const written = z
  .record(z.string(), Case)
  .parse(JSON.parse(readFileSync(join(root, 'tests/reference/checks/steam-cycles.json'), 'utf8')))
const folder = mkdtempSync(join(tmpdir(), 'steam-cycles-'))
after(() => rmSync(folder, { recursive: true }))

/** The row of the published table that the file leaves out: the last load comes 22 s after the reference. */
function slowEquilibration(pass: Case): Case {
  const late = pass.loads.map((load, index) =>
    index === 2
      ? load.map(([t, value]): [number, number] => (t === 790 ? [802, value] : t === 805 ? [817, value] : [t, value]))
      : load,
  )
  const shift = (points: Points): Points =>
    points.map(([t, value]): [number, number] => (t >= 985 ? [t + 12, value] : [t, value]))
  return {
    ...pass,
    p: shift(pass.p),
    ref: shift(pass.ref),
    top: shift(pass.top),
    loads: late.map(shift),
    expected: {
      ...pass.expected,
      equilibrationS: 22,
      holdS: 196,
      maxSpreadK: 0.8,
      satMin: 134.384,
      fail: ['equilibration'],
    },
  }
}

const pass = written['pass']
assert.ok(pass)
const cases: Record<string, Case> = { ...written, 'slow-equilibration': slowEquilibration(pass) }

function at(points: Points, t: number): number {
  const after = points.findIndex(([time]) => time >= t)
  const [t1, v1] = points[after < 0 ? points.length - 1 : after] ?? [0, Number.NaN]
  const [t0, v0] = points[Math.max(0, after - 1)] ?? [0, Number.NaN]
  return after <= 0 || t1 === t0 ? v1 : v0 + ((v1 - v0) * (t - t0)) / (t1 - t0)
}

function csvOf({ p, ref, loads, top }: Case): string {
  const channels = [p, ref, ...loads, top]
  const end = ref.at(-1)?.[0] ?? 0
  const rows = Array.from({ length: end + 1 }, (_, t) => [t, ...channels.map((channel) => at(channel, t))].join(','))
  return ['s,p,ref,load1,load2,load3,top', ...rows].join('\n')
}

const map = {
  time: { column: 's', format: 'seconds' },
  pressure: { column: 'p', unit: 'kPa', gauge: false },
  reference: { column: 'ref', unit: 'C' },
  loads: ['load1', 'load2', 'load3'].map((column) => ({ column, unit: 'C' })),
  above: { column: 'top', unit: 'C' },
}

function readByCommand(
  name: string,
  one: Case,
  more: readonly string[] = [],
): { code: number | null; reading: SteamCycleReading } {
  const file = (end: string, text: string) => {
    const path = join(folder, `${name}.${end}`)
    writeFileSync(path, text)
    return path
  }
  const program = { sterilisationC: one.tset, bandK: 3, holdSeconds: 180, chamberLitres: one.vol, maxDifferenceK: 2 }
  const args = [
    join(root, 'src/cli/main.ts'),
    'read-cycle',
    file('csv', csvOf(one)),
    '--program',
    file('program.json', JSON.stringify(program)),
    '--map',
    file('map.json', JSON.stringify(map)),
    '--json',
    ...more,
  ]
  const run = spawnSync(process.execPath, args, { encoding: 'utf8' })
  assert.equal(run.stderr, '')
  return { code: run.status, reading: SteamCycleReading.parse(JSON.parse(run.stdout)) }
}

for (const [name, one] of Object.entries(cases)) {
  test(`read-cycle gives the figures and the failing criteria of "${name}"`, () => {
    const { code, reading } = readByCommand(name, one)
    const { expected } = one
    const measured = (id: string) => reading.criteria.find((criterion) => criterion.id === id)?.measured
    assert.deepEqual(
      {
        equilibrationS: reading.equilibrationSeconds,
        holdS: reading.holdingSeconds,
        maxT: reading.maxC,
        maxSpreadK:
          name === 'slow-equilibration' ? Math.round((reading.maxSpreadK ?? 0) * 10) / 10 : reading.maxSpreadK,
        satMin: reading.saturationMinC,
        satMax: reading.saturationMaxC,
        topExcess60: measured('topFirst'),
        topExcessAfter: measured('topAfter'),
        fail: reading.criteria
          .filter(({ result }) => result === 'notMet')
          .map(({ id }) => id)
          .sort(),
      },
      { ...expected, fail: [...expected.fail].sort() },
    )
    assert.equal(reading.verdict, expected.fail.length === 0 ? 'met' : 'notMet')
    assert.equal(code, expected.fail.length === 0 ? 0 : 3)
    assert.ok(reading.criteria.every(({ result }) => result !== 'notEvaluable'))
  })
}

test('read-cycle --volume 1000 passes the slow equilibration', () => {
  const { code, reading } = readByCommand('large', slowEquilibration(pass), ['--volume', '1000'])
  assert.equal(reading.verdict, 'met')
  assert.equal(code, 0)
  assert.equal(reading.criteria.find(({ id }) => id === 'equilibration')?.limit, 30)
})
