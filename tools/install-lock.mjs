// One installation of the packages at a time: two at once in one tree leave it broken.
// Plain JavaScript for any Node, as node24.mjs is.
import { mkdirSync, readFileSync, realpathSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { uptime } from 'node:os'
import { dirname, join } from 'node:path'

const waitMillis = 200
const longestWaitMillis = 20 * 60_000
/** A folder without its note is being made; after this long its maker was cut short. */
const makingMillis = 10_000

/**
 * Does this work while nobody else does it in the same tree, and waits for its turn. A lock whose process is gone is
 * taken over. Throws when the turn has not come after twenty minutes.
 */
export function withInstallLock(tree, work) {
  const lock = lockOf(tree)
  takeLock(lock)
  try {
    return work()
  } finally {
    rmSync(lock, { recursive: true, force: true })
  }
}

/** Beside the packages themselves: several trees may share one folder of packages by a link. */
function lockOf(tree) {
  let holder = tree
  try {
    holder = dirname(realpathSync(join(tree, 'node_modules')))
  } catch {
    // No packages yet: they will be put into this tree.
  }
  return join(holder, '.nilgrowth-installing')
}

function takeLock(lock) {
  const giveUpAt = Date.now() + longestWaitMillis
  let told = false
  while (!makeFolder(lock)) {
    const holder = holderOf(lock)
    if (holder === 'gone') {
      removeDead(lock)
      continue
    }
    if (!told && holder !== 'free') console.log(`The packages are being installed by ${holder}: waiting for it…`)
    told = told || holder !== 'free'
    if (Date.now() > giveUpAt) {
      throw new Error(`the packages are still being installed by ${holder}: end it, or remove ${lock}, and try again`)
    }
    sleep(waitMillis)
  }
  writeFileSync(join(lock, 'owner'), `${process.pid} ${new Date().toISOString()}\n`)
}

/** Making a folder is atomic: of many who try, one has it. */
function makeFolder(path) {
  try {
    mkdirSync(path)
    return true
  } catch (error) {
    if (error.code === 'EEXIST') return false
    throw error
  }
}

/** Who holds the lock: `free` when it was given back meanwhile, `gone` when its process is no more, else in words. */
function holderOf(lock) {
  const [pid, since] = readOwner(lock)
  if (pid === undefined) {
    const age = ageOf(lock)
    if (age === undefined) return 'free'
    return age > makingMillis ? 'gone' : 'another process'
  }
  return isRunning(Number(pid)) && Date.parse(since) >= startOfMachine() ? `process ${pid}, since ${since}` : 'gone'
}

function readOwner(lock) {
  try {
    const [, pid, since] = /^(\d+) (\S+)\n$/.exec(readFileSync(join(lock, 'owner'), 'utf8')) ?? []
    return [pid, since]
  } catch {
    return []
  }
}

function ageOf(path) {
  try {
    return Date.now() - statSync(path).mtimeMs
  } catch {
    return undefined
  }
}

/**
 * Only one removes a dead lock, and looks again before: else the second would remove the new lock of the first.
 * A remover that was itself cut short is passed over after a while.
 */
function removeDead(lock) {
  const removing = `${lock}.removing`
  if (!makeFolder(removing)) {
    if ((ageOf(removing) ?? 0) > makingMillis) rmSync(removing, { recursive: true, force: true })
    sleep(waitMillis)
    return
  }
  try {
    if (holderOf(lock) === 'gone') rmSync(lock, { recursive: true, force: true })
  } finally {
    rmSync(removing, { recursive: true, force: true })
  }
}

function isRunning(pid) {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    // A process of another user may not be signalled, and is there.
    return error.code === 'EPERM'
  }
}

/** Numbers of processes begin anew with the machine. A minute is allowed for its clock being set meanwhile. */
function startOfMachine() {
  return Date.now() - uptime() * 1000 - 60_000
}

function sleep(millis) {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, millis)
}
