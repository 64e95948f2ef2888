import { statSync } from 'node:fs'
import { join, resolve, sep } from 'node:path'
import fastifyStatic from '@fastify/static'
import type { FastifyReply, FastifyRequest } from 'fastify'
import type { App } from './app-type.ts'
import { answerNoRoute, pathOf } from './error-handler.ts'

/**
 * Serves the built screens; any other address that is not the API's is a place in the program, so it gets its page.
 * Without built screens it gets a page that says so.
 */
export async function addScreens(app: App, folder: string | null): Promise<void> {
  const built = folder !== null && isFileIn(folder, 'index.html') ? folder : null
  if (built !== null) {
    await app.register(fastifyStatic, { root: built, serve: false, preCompressed: true, cacheControl: false })
  }

  app.setNotFoundHandler((request, reply) => {
    const file = decodedPath(pathOf(request)).slice(1)
    if (!isPlace(request, file)) return answerNoRoute(app, request, reply)
    if (built === null) return reply.type('text/html; charset=utf-8').send(plainPage)
    if (isFileIn(built, file)) return sendFile(reply, file)
    // A page of an older build asks for what is gone: the page itself would not do in its place.
    return file.startsWith('assets/') ? answerNoRoute(app, request, reply) : sendFile(reply, 'index.html')
  })
}

/**
 * The one worker that reads codes in pictures compiles its decoder (WebAssembly) from our own address. A worker goes by the policy of
 * its own file: the pages, with all that they hold, may still compile nothing.
 */
const cameraWorker = /^assets\/camera-worker-[\w-]+\.js$/
const policyOfCameraWorker =
  "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

/** The names of assets hold a hash of what is in them, so they never change; the page that names them does. */
function sendFile(reply: FastifyReply, file: string): FastifyReply {
  const hashed = file.startsWith('assets/')
  if (cameraWorker.test(file)) reply.header('content-security-policy', policyOfCameraWorker)
  return reply.header('cache-control', hashed ? 'public, max-age=31536000, immutable' : 'no-cache').sendFile(file)
}

/** An address that a browser asks for, and not the API's. */
function isPlace(request: FastifyRequest, path: string): boolean {
  const asked = request.method === 'GET' || request.method === 'HEAD'
  return asked && path !== 'api' && !path.startsWith('api/') && path !== 'fhir' && !path.startsWith('fhir/')
}

function decodedPath(path: string): string {
  try {
    return decodeURIComponent(path)
  } catch {
    return '/'
  }
}

function isFileIn(folder: string, file: string): boolean {
  if (file.includes('\0')) return false
  const path = resolve(join(folder, file))
  return path.startsWith(resolve(folder) + sep) && statSync(path, { throwIfNoEntry: false })?.isFile() === true
}

const plainPage = `<!doctype html>
<html lang="en">
  <meta charset="utf-8">
  <title>nilgrowth</title>
  <h1>nilgrowth</h1>
  <p>The service is open. Its screens have not been built: stop it and run <code>npm start</code>.</p>
  <p>The API is described in <a href="/openapi.json">/openapi.json</a>.</p>
</html>
`
