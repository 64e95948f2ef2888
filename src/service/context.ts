import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Credentials } from '#journal/credentials/credentials.ts'
import type { Identities } from '#journal/identities/identities.ts'
import type { Journal, Reader } from '#journal/journal.ts'
import type { Intake } from './intake/intake.ts'
import type { Compute } from './compute/compute.ts'
import type { ServiceConfig } from './config.ts'
import type { PatientIdentities } from './identities/identities.ts'
import type { Backups } from './keeping/backups.ts'
import type { StandbyWatch } from './keeping/standby-watch.ts'
import type { Seals } from './keeping/seals.ts'
import type { Connections } from './operation/connections.ts'
import type { ServiceLog } from './operation/log.ts'
import type { Metrics } from './operation/metrics.ts'
import type { Rates } from './rates/rates.ts'
import type { Passkeys } from './sign-in/passkeys.ts'
import type { SignIn } from './sign-in/sign-in.ts'
import type { LiveHub } from './live/live-hub.ts'
import type { UnitSetup } from './unit/unit-setup.ts'
import type { Webhooks } from './webhooks/webhooks.ts'

/** What is needed to record entries: the service has it, and so has the command line. */
export type RecordContext = Pick<ServiceContext, 'journal' | 'reader' | 'site' | 'compute'>

/** What the routes work with. */
export interface ServiceContext {
  readonly config: ServiceConfig
  readonly engine: 'sqlite' | 'postgres'
  readonly version: string
  readonly journal: Journal
  readonly reader: Reader
  readonly site: SiteId
  readonly now: () => Instant
  readonly compute: Compute
  readonly live: LiveHub
  readonly intake: Intake
  readonly setup: UnitSetup
  readonly seals: Seals
  readonly backups: Backups
  readonly standby: StandbyWatch
  readonly webhooks: Webhooks
  readonly signIn: SignIn
  readonly rates: Rates
  readonly credentials: Credentials
  readonly passkeys: Passkeys
  readonly identityStore: Identities
  readonly identities: PatientIdentities
  /** Where the built screens are, or null when they have not been built. */
  readonly screens: string | null
  readonly log: ServiceLog
  readonly metrics: Metrics
  readonly connections: Connections
  /** Set when the service is told to end. */
  readonly stopping: { told: boolean }
}
