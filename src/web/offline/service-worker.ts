/*
 * Opens the program without network. It holds the built files of the program and nothing else: no answer of the record goes
 * through it. The list of files, and the name of the build, are put in when it is built.
 */

interface Lasting extends Event {
  waitUntil(work: Promise<unknown>): void
}

interface Fetching extends Lasting {
  readonly request: Request
  respondWith(answer: Promise<Response>): void
}

/** What of a worker's surroundings is used here: the types of the screens describe a window. */
interface Surroundings {
  addEventListener(type: 'install' | 'activate', listener: (event: Lasting) => void): void
  addEventListener(type: 'fetch', listener: (event: Fetching) => void): void
  skipWaiting(): Promise<void>
  readonly clients: { claim(): Promise<void> }
}

declare const __SHELL__: { readonly build: string; readonly files: readonly string[] }

const worker = self as unknown as Surroundings
const shell = __SHELL__
const prefix = 'nilgrowth-shell-'
const page = '/index.html'
/** A network that hangs is no better than none. */
const patienceMillis = 4000

worker.addEventListener('install', (event) => event.waitUntil(install()))
worker.addEventListener('activate', (event) => event.waitUntil(activate()))
worker.addEventListener('fetch', (event) => {
  const { request } = event
  const { origin, pathname } = new URL(request.url)
  if (request.method !== 'GET' || origin !== location.origin || /^\/(?:api|fhir)\//.test(pathname)) return
  if (request.mode === 'navigate') event.respondWith(openPage(request))
  else if (shell.files.includes(pathname) || pathname.startsWith('/assets/')) event.respondWith(openFile(request))
})

async function install(): Promise<void> {
  const cache = await caches.open(prefix + shell.build)
  await cache.addAll(shell.files.map((file) => new Request(file, { cache: 'no-cache' })))
  await worker.skipWaiting()
}

/** The build before this one stays: a page of it that is still open has more to load. */
async function activate(): Promise<void> {
  const shells = (await caches.keys()).filter((name) => name.startsWith(prefix))
  const gone = shells.filter((name) => name !== prefix + shell.build).slice(0, -1)
  await Promise.all(gone.map((name) => caches.delete(name)))
  await worker.clients.claim()
}

/** The newest page where the service answers in time, so that a new version shows at once; else the one that is kept. */
async function openPage(request: Request): Promise<Response> {
  try {
    const answer = await fetch(request, { signal: AbortSignal.timeout(patienceMillis) })
    if (answer.status < 500) return answer
  } catch {
    // Asked in vain.
  }
  return (await keptFile(page)) ?? (await fetch(request))
}

async function openFile(request: Request): Promise<Response> {
  return (await keptFile(new URL(request.url).pathname)) ?? (await fetch(request))
}

async function keptFile(path: string): Promise<Response | undefined> {
  const own = await caches.open(prefix + shell.build)
  return (await own.match(path)) ?? (await caches.match(path))
}
