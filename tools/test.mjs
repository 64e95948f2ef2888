// npm test: installs what is missing, then runs everything. `--long` runs the long families instead.
import { spawnSync } from 'node:child_process'
import { existsSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { ensurePackages, root, runNode } from './node24.mjs'
import { runStaticChecks } from './static-checks.mjs'

const browsers = ['/usr/bin/chromium-headless-shell', '/usr/bin/chromium']

/** Where Debian puts a server of ours; undefined when it is not installed. */
const services = [
  { package: 'postgresql', present: () => hasPostgres() || existsSync('/usr/local/bin/postgres') },
  // The same browser without the parts that draw windows: a fifth less work for a machine of two cores.
  {
    package: 'chromium-headless-shell',
    present: () => browsers.some((file) => existsSync(file)) || process.env.CHROMIUM !== undefined,
  },
  // Reads the text of printed pages.
  {
    package: 'poppler-utils',
    present: () => existsSync('/usr/bin/pdftotext') || existsSync('/usr/local/bin/pdftotext'),
  },
]

function hasPostgres() {
  const folder = '/usr/lib/postgresql'
  return existsSync(folder) && readdirSync(folder).some((version) => existsSync(join(folder, version, 'bin', 'initdb')))
}

function ensureServices() {
  const missing = services.filter((service) => !service.present()).map((service) => service.package)
  if (missing.length === 0) return
  const root = process.getuid?.() === 0
  if (!root || !existsSync('/usr/bin/apt-get')) {
    throw new Error(
      `The tests need ${missing.join(' and ')}. On Debian, as root: apt-get install ${missing.join(' ')}. ` +
        'Elsewhere: set TEST_DATABASE_URL to an empty PostgreSQL database and CHROMIUM to the path of a Chromium, and put pdftotext on the path.',
    )
  }
  console.log(`Installing ${missing.join(' and ')} from Debian's packages (once)…`)
  const apt = (...args) =>
    spawnSync('apt-get', args, {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    })
  apt('update', '-qq')
  const done = apt('install', '-y', '-qq', '--no-install-recommends', ...missing)
  if (done.status !== 0) throw new Error(`apt-get install ${missing.join(' ')} ended with ${done.status}`)
}

ensurePackages()
ensureServices()
const long = process.argv.includes('--long')
const built = await runNode([join(root, 'node_modules/vite/bin/vite.js'), 'build', '--logLevel', 'warn'], { cwd: root })
if (built !== 0) throw new Error('The screens could not be built; see above')
const checks = long ? { passed: 0, failed: 0 } : await runStaticChecks()
process.exitCode = await runNode(
  [
    join(root, 'tools/run-tests.mjs'),
    ...(long ? ['long'] : ['fast', 'whole']),
    `--passed-before=${checks.passed}`,
    `--failed-before=${checks.failed}`,
  ],
  { cwd: root },
)
