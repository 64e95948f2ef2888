import { writeFileSync } from 'node:fs'
import { cpus, totalmem } from 'node:os'
import { join } from 'node:path'
import type { BenchRow } from './measure.ts'

/*
 * npm run bench [-- NAME ...]: runs the benches and writes bench/results.md. A comparison is made in
 * one run, since the speed of a machine drifts; quote medians and ratios.
 */

interface Bench {
  readonly name: string
  readonly title: string
  readonly load: () => Promise<() => Promise<readonly BenchRow[]>>
}

const benches: readonly Bench[] = [
  {
    name: 'by-site',
    title: '500 sites on PostgreSQL',
    load: async () => (await import('./by-site.bench.ts')).bySiteBench,
  },
  {
    name: 'doubts',
    title: 'Packs in doubt',
    load: async () => (await import('./doubts.bench.ts')).doubtsBench,
  },
  {
    name: 'exposure-ranking',
    title: 'Ranking of exposures',
    load: async () => (await import('./exposure-ranking.bench.ts')).exposureRankingBench,
  },
  {
    name: 'growth',
    title: 'Cost as the record grows',
    load: async () => (await import('./growth.bench.ts')).growthBench,
  },
  { name: 'journal', title: 'The journal', load: async () => (await import('./journal.bench.ts')).journalBench },
  { name: 'plan', title: 'Planning a day', load: async () => (await import('./plan.bench.ts')).planBench },
  {
    name: 'plan-year',
    title: 'Planning the year of the demonstration',
    load: async () => (await import('./plan-year.bench.ts')).planYearBench,
  },
  {
    name: 'prove-plan',
    title: 'Proving a plan',
    load: async () => (await import('./prove-plan.bench.ts')).provePlanBench,
  },
  {
    name: 'read-cycle',
    title: 'Reading a cycle log',
    load: async () => (await import('./read-cycle.bench.ts')).readCycleBench,
  },
  { name: 'screens', title: 'First screen', load: async () => (await import('./screens.bench.ts')).screensBench },
  {
    name: 'tablets',
    title: '200 tablets of mixed work',
    load: async () => (await import('./tablets.bench.ts')).tabletsBench,
  },
  { name: 'tracing', title: 'Trace and recall', load: async () => (await import('./tracing.bench.ts')).tracingBench },
]

const wanted = process.argv.slice(2)
const chosen = benches.filter((bench) => wanted.length === 0 || wanted.includes(bench.name))
if (chosen.length === 0) {
  throw new Error(
    `bench: wanted one of ${benches.map(({ name }) => name).join(', ')}, current value is ${wanted.join(' ')}`,
  )
}

const sections: string[] = []
for (const bench of chosen) {
  console.log(`\n${bench.title}`)
  const rows = await (await bench.load())()
  for (const row of rows)
    console.log(`  ${row.name}: ${figure(row.median)} ${row.unit} (${figure(row.min)} to ${figure(row.max)})`)
  sections.push(`## ${bench.title}\n\n${table(rows)}`)
}

const page = `# Measured figures

Written by \`npm run bench\` on ${new Date().toISOString().slice(0, 10)}: Node ${process.versions.node}, ${cpus().length} processors, ${Math.round(totalmem() / 2 ** 30)} GiB.
The machine is shared and its speed drifts: quote medians, and ratios taken within one run.

${sections.join('\n\n')}
`
if (wanted.length === 0) writeFileSync(join(import.meta.dirname, 'results.md'), page)
else console.log(`\n${page}`)

function table(rows: readonly BenchRow[]): string {
  const lines = rows.map(
    (row) =>
      `| ${row.name} | ${figure(row.median)} | ${figure(row.min)} – ${figure(row.max)} | ${row.unit} | ${row.runs} | ${row.note ?? ''} |`,
  )
  return ['| what | median | min – max | unit | runs | note |', '|---|---|---|---|---|---|', ...lines].join('\n')
}

function figure(value: number): string {
  if (!Number.isFinite(value)) return 'none'
  return Math.abs(value) >= 100 ? Math.round(value).toLocaleString('en') : value.toPrecision(3)
}
