import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import type { SiteId } from '#road/entry.ts'
import { type Instant, instant } from '#road/instant.ts'
import { theRoad } from '#road/the-road.ts'
import { openJournal } from '#journal/open-journal.ts'
import type { Journal, Reader } from '#journal/journal.ts'
import { StoreError } from '#journal/store-error.ts'
import packageFile from '../../package.json' with { type: 'json' }
import type { App } from './app-type.ts'
import { buildApp } from './app.ts'
import { computeInWorkers } from './compute/compute.ts'
import type { ServiceConfig } from './config.ts'
import type { ServiceContext } from './context.ts'
import { patientIdentities } from './identities/identities.ts'
import { backups } from './keeping/backups.ts'
import { standbyWatch } from './keeping/standby-watch.ts'
import { seals } from './keeping/seals.ts'
import { intakeOf } from './intake/intake.ts'
import { liveHub } from './live/live-hub.ts'
import { connections } from './operation/connections.ts'
import { serviceLog } from './operation/log.ts'
import { metrics } from './operation/metrics.ts'
import { ratesOf } from './rates/rates.ts'
import { passkeysOfSite } from './sign-in/passkeys.ts'
import { signInAt } from './sign-in/sign-in.ts'
import type { DemoSource } from './unit/demo-source.ts'
import { endSetupCode, newSetupCode } from './unit/setup-code.ts'
import { setupMarker } from './unit/setup-marker.ts'
import { unitSetup } from './unit/unit-setup.ts'
import { webhooksOf } from './webhooks/webhooks.ts'

export interface Service extends AsyncDisposable {
  readonly url: string
  readonly port: number
  readonly journal: Journal
  close(): Promise<void>
}

export interface ServiceOptions {
  readonly config: ServiceConfig
  readonly demo: DemoSource | null
  readonly now?: () => Instant
  readonly log?: (line: string) => void
  readonly checkAnswers?: boolean
  /** Folder of the built screens. */
  readonly screens?: string | null
}

const secondsAllowed = 60

export const builtScreens = join(import.meta.dirname, '../../dist')

/** Opens the store and listens. What was opened is closed again when a later step fails. */
export async function openService(options: ServiceOptions): Promise<Service> {
  const { config, log: write = (line) => process.stderr.write(`${line}\n`) } = options
  const now = options.now ?? (() => instant(Date.now()))
  const log = serviceLog({ form: config.log, now, write })
  const journal = await openJournal({ at: config.at, road: theRoad, now, opening: { log: log.say } })
  try {
    await wantHere(journal, config.site)
    const context = contextOf(options, { journal, now, log })
    const app = await buildApp(
      context,
      options.checkAnswers === undefined ? {} : { checkAnswers: options.checkAnswers },
    )
    return await listen(app, context)
  } catch (error) {
    await journal.close()
    throw error
  }
}

/** A record that goes on elsewhere would only show what was, to people who believe to see what is. */
async function wantHere(journal: Journal, site: SiteId): Promise<void> {
  const moved = await journal.movedAway(site)
  if (moved === undefined) return
  throw new StoreError(
    `The record of ${site} was moved to ${moved.goesOn} at ${moved.at}: open the service there, with DATABASE_URL or NILGROWTH_DATA`,
  )
}

function contextOf(
  { config, demo, screens = builtScreens }: ServiceOptions,
  { journal, now, log }: Pick<ServiceContext, 'journal' | 'now' | 'log'>,
): ServiceContext {
  const { site } = config
  const reader = journal.read(site)
  const credentials = journal.credentials(site)
  const identityStore = journal.identities(site)
  const passkeys = passkeysOfSite({ credentials, site, now })
  const compute = computeInWorkers({ workers: Math.max(1, availableParallelism() - 1), secondsAllowed })
  const signIn = signInAt({ credentials, passkeys, reader, site, now, isRequired: requiredHere(config, reader) })
  return {
    credentials,
    passkeys,
    identityStore,
    identities: patientIdentities({ identities: identityStore, site, keyFile: config.identityKeyFile, now }),
    webhooks: webhooksOf({ journal, reader, site, now, privateAllowed: config.webhooksPrivate, say: log.say }),
    signIn,
    rates: ratesOf(config),
    config,
    engine: config.at.kind,
    version: packageFile.version,
    journal,
    reader,
    site,
    now,
    log,
    metrics: metrics(),
    connections: connections(),
    stopping: { told: false },
    screens,
    compute,
    intake: intakeOf({
      journal,
      reader,
      site,
      compute,
      now,
      settings: config.machines,
      mostBytes: config.attachmentLimitBytes,
      log: log.say,
    }),
    // On SQLite the file may be written by the command line; on PostgreSQL by other services.
    live: liveHub({ journal, reader, askEveryMilliseconds: 1000, most: config.streamsLimit }),
    standby: standbyWatch({ journal, expected: config.standbyExpected, log: log.say }),
    seals: seals({ journal, site, keyFile: config.sealKeyFile, now, log: log.say }),
    backups: backups({ at: config.at, site, schedule: config.backups, journal, now, log: log.say }),
    setup: unitSetup({
      journal,
      reader,
      site,
      comparesSites: config.group.length > 0,
      now,
      demo,
      log: log.say,
      marker: setupMarker(journal.notes, site),
      async opened(manager, passphrase) {
        if (passphrase !== undefined) await signIn.setSecrets(manager, { passphrase })
        await endSetupCode(journal.notes)
      },
    }),
  }
}

/** Every record asks for sign-in but that of a demonstration, where nothing is to be kept from anybody. */
function requiredHere({ signIn }: ServiceConfig, reader: Reader): () => Promise<boolean> {
  let isDemonstration: boolean | undefined
  return async () => {
    if (signIn === 'open') return false
    const [unit] = isDemonstration === undefined ? await reader.standing('unit', ['open']) : []
    // A record without a unit asks for it too: until there is one, only setting it up is open.
    isDemonstration ??= unit?.demonstration
    return isDemonstration !== true
  }
}

/** The first manager proves by this code to be at the console. */
async function printSetupCode({ config, setup, journal, log }: ServiceContext): Promise<void> {
  if (config.signIn === 'open' || (await setup.state()).state !== 'new') return
  log.say(`To set up your own unit, the one-time code is ${await newSetupCode(journal.notes)}`)
}

async function closeKeeping({ seals, backups, standby }: ServiceContext): Promise<void> {
  standby.close()
  await seals.close()
  await backups.close()
}

async function listen(app: App, context: ServiceContext): Promise<Service> {
  const { config, journal } = context
  const close = async (): Promise<void> => {
    context.stopping.told = true
    if (config.stopAfterSeconds > 0) await sleep(config.stopAfterSeconds * 1000)
    context.live.close()
    await context.connections.drain(() => app.close())
    await context.setup.close()
    await context.webhooks.stop()
    // What is heard is read by the workers.
    await context.intake.close()
    await context.compute.close()
    await closeKeeping(context)
    await journal.close()
  }
  try {
    await app.listen({ host: config.host, port: config.port })
    await context.setup.resume()
    context.webhooks.start()
    await printSetupCode(context)
  } catch (error) {
    context.live.close()
    await app.close()
    await context.webhooks.stop()
    await context.intake.close()
    await closeKeeping(context)
    throw error
  }
  const [address] = app.addresses()
  // The port that was given when any was asked for (0).
  const port = typeof address === 'object' ? address.port : config.port
  const host =
    config.host === '0.0.0.0' || config.host === '::' || config.host === '127.0.0.1' ? 'localhost' : config.host
  const scheme = config.tls === null ? 'http' : 'https'
  return { url: `${scheme}://${host}:${port}`, port, journal, close, [Symbol.asyncDispose]: close }
}
