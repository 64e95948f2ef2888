// Builds the screens into dist/ when they are missing or older than what they are made of.
// Plain JavaScript: it runs before Node 24 is there.
import { existsSync, readdirSync, statSync, utimesSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { root, runNode } from './node24.mjs'

const dist = join(root, 'dist')
const sources = [
  'src/web',
  'src/road',
  'src/units',
  'src/workings',
  'src/service/api-types.ts',
  'vite.config.ts',
  'package-lock.json',
]

/** Builds when it is needed. A failed build is said and does not keep the service from opening. */
export async function buildScreens() {
  const stamp = join(dist, '.built')
  // The time before the build: what is changed while it runs makes it old again.
  const began = new Date()
  if (existsSync(stamp) && statSync(stamp).mtimeMs >= Math.max(...sources.map(newestIn))) return
  console.log('Building the screens…')
  const vite = join(root, 'node_modules/vite/bin/vite.js')
  const code = await runNode([vite, 'build', '--logLevel', 'warn'], { cwd: root })
  if (code === 0) mark(stamp, began)
  else console.error('The screens could not be built (see above): the service opens with the last ones that could.')
}

/** When the newest file of a folder was changed. */
function newestIn(name) {
  const path = join(root, name)
  if (!existsSync(path)) return 0
  if (!statSync(path).isDirectory()) return statSync(path).mtimeMs
  // Folders are looked at too: a file that was taken away shows only there.
  return readdirSync(path, { recursive: true }).reduce(
    (newest, file) => Math.max(newest, statSync(join(path, file)).mtimeMs),
    statSync(path).mtimeMs,
  )
}

function mark(stamp, at) {
  writeFileSync(stamp, at.toISOString())
  utimesSync(stamp, at, at)
}
