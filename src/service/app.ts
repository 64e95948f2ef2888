import { randomUUID } from 'node:crypto'
import { STATUS_CODES } from 'node:http'
import fastify from 'fastify'
import { z } from 'zod'
import { invariant } from '#units/invariant.ts'
import type { AddRoutes, App } from './app-type.ts'
import type { ServiceContext } from './context.ts'
import { setErrorHandler } from './error-handler.ts'
import { addOpenApi } from './openapi.ts'
import { brokenRequest, compressedBody } from './problems.ts'
import { readCertificate } from './http-server.ts'
import { problemMediaType, sendProblem } from './problem-reply.ts'
import { addAttachmentRoutes } from './routes/attachments.ts'
import { addCycleRoutes } from './routes/cycles.ts'
import { addDecideRoutes } from './routes/decide.ts'
import { addEntryRoutes } from './routes/entries.ts'
import { addFhirRoutes } from './routes/fhir.ts'
import { addFindRoutes } from './routes/find.ts'
import { addGroupRoutes } from './routes/group.ts'
import { addHealthRoutes } from './routes/health.ts'
import { addIdentityRoutes } from './routes/identities.ts'
import { addIntakeRoutes } from './routes/intake.ts'
import { addKeepingRoutes } from './routes/keeping.ts'
import { addKnownRoutes } from './routes/known.ts'
import { addListImportRoutes } from './routes/list-import.ts'
import { addLabelRoutes } from './routes/labels.ts'
import { addLiveRoutes } from './routes/live.ts'
import { addOperationRoutes } from './routes/operation.ts'
import { addMachineRoutes } from './routes/machines.ts'
import { addOwnSessionRoutes } from './routes/own-sessions.ts'
import { addPasskeyRoutes } from './routes/passkeys.ts'
import { addPlanRoutes } from './routes/plan.ts'
import { addPolicyRoutes } from './routes/policy.ts'
import { addPrintingRoutes } from './routes/printing.ts'
import { addRecallRoutes } from './routes/recalls.ts'
import { addWoundRoutes } from './routes/wounds.ts'
import { addRuleRoutes } from './routes/rules.ts'
import { addTableRoutes } from './routes/tables.ts'
import { addTraceRoutes } from './routes/trace.ts'
import { addAccountRoutes } from './routes/accounts.ts'
import { addSignInRoutes } from './routes/sign-in.ts'
import { addUnitRoutes } from './routes/unit.ts'
import { addWebhookRoutes } from './routes/webhooks.ts'
import { addWorkingRoutes } from './routes/workings.ts'
import { addScreens } from './screens.ts'
import { addSecurityHeaders } from './security-headers.ts'
import { addGate } from './sign-in/gate.ts'
import { checkBySchema } from './validation.ts'

const routeGroups: readonly AddRoutes[] = [
  addUnitRoutes,
  addHealthRoutes,
  addGroupRoutes,
  addOperationRoutes,
  addKeepingRoutes,
  addSignInRoutes,
  addPasskeyRoutes,
  addOwnSessionRoutes,
  addAccountRoutes,
  addIdentityRoutes,
  addEntryRoutes,
  addKnownRoutes,
  addFindRoutes,
  addMachineRoutes,
  addLabelRoutes,
  addIntakeRoutes,
  addTraceRoutes,
  addRecallRoutes,
  addWoundRoutes,
  addPlanRoutes,
  addAttachmentRoutes,
  addCycleRoutes,
  addPrintingRoutes,
  addPolicyRoutes,
  addRuleRoutes,
  addWorkingRoutes,
  addDecideRoutes,
  addListImportRoutes,
  addTableRoutes,
  addFhirRoutes,
  addWebhookRoutes,
  addLiveRoutes,
]

export interface AppOptions {
  /** Holds every answer against its schema, so that the tests prove what OpenAPI says. */
  readonly checkAnswers?: boolean
}

/** Puts the server together; it does not listen yet. */
export async function buildApp(context: ServiceContext, { checkAnswers = false }: AppOptions = {}): Promise<App> {
  const { tls } = context.config
  const certificate = tls === null ? null : readCertificate(tls)
  const app: App = fastify({
    logger: false,
    bodyLimit: 1024 * 1024,
    // Nothing of a request becomes its number, which stands in the log.
    genReqId: () => randomUUID(),
    requestIdHeader: false,
    // What is under way comes to its end, and what comes meanwhile on an open connection is answered too.
    forceCloseConnections: 'idle',
    return503OnClosing: false,
    serverFactory: (handler) => context.connections.listenerFor(certificate, handler),
    trustProxy: context.config.trustedProxies.length > 0 ? [...context.config.trustedProxies] : false,
    routerOptions: { maxParamLength: 300 },
    // An address that cannot be decoded never gets as far as a route or a handler.
    frameworkErrors: (error, _request, reply) => sendProblem(reply, brokenRequest(error.message)),
    clientErrorHandler: (error, socket) => {
      if (!socket.writable) return
      socket.end(rawProblem(error.code ?? 'not HTTP'))
    },
  })
  app.removeContentTypeParser('text/plain')
  app.setValidatorCompiler(checkBySchema)
  app.setSerializerCompiler(({ schema }) => (answer) => {
    if (checkAnswers) checkAnswer(schema, answer)
    return JSON.stringify(answer)
  })
  setErrorHandler(app, context.log.say)
  addRequestEvents(app, context)
  addSecurityHeaders(app, context.config)
  refuseCompressed(app)
  await addGate(app, context)
  await addOpenApi(app, context.version)
  for (const addRoutes of routeGroups) addRoutes(app, context)
  await addScreens(app, context.screens)
  await app.ready()
  return app
}

/** No compressed body is opened, so that none can grow when it is: what is sent is as large as it says. */
function refuseCompressed(app: App): void {
  app.addHook('onRequest', async (request, reply) => {
    const coding = request.headers['content-encoding'] ?? 'identity'
    if (coding.toLowerCase() === 'identity') return
    return sendProblem(reply.header('accept-encoding', 'identity'), compressedBody(coding))
  })
}

/** Tells the log and the counters of every answer, and the asker under which number. */
function addRequestEvents(app: App, { log, metrics }: ServiceContext): void {
  app.addHook('onRequest', async (request, reply) => {
    reply.header('x-request-id', request.id)
  })
  app.addHook('onResponse', async (request, reply) => {
    const { method, id, routeOptions } = request
    const event = {
      id,
      method,
      // A page of the program, or nothing at all: what was asked for may be anything.
      route: routeOptions.url ?? 'screens',
      status: reply.statusCode,
      milliseconds: Math.round(reply.elapsedTime * 10) / 10,
    }
    log.answered(event)
    metrics.answered(event)
  })
}

function checkAnswer(schema: unknown, answer: unknown): void {
  invariant(schema instanceof z.ZodType, 'every answer is described by a Zod schema')
  const parsed = schema.safeParse(JSON.parse(JSON.stringify(answer)))
  invariant(parsed.success, `an answer is as its schema says: ${parsed.error?.message}`)
}

/** The answer to bytes that are not HTTP: there is no request yet, so it is written by hand. */
function rawProblem(reason: string): string {
  const problem = brokenRequest(reason)
  const body = JSON.stringify(problem)
  return [
    `HTTP/1.1 ${problem.status} ${STATUS_CODES[problem.status]}`,
    `content-type: ${problemMediaType}`,
    `content-length: ${Buffer.byteLength(body)}`,
    'connection: close',
    '',
    body,
  ].join('\r\n')
}
