import { postgresIdentityTables, sqliteIdentityTables } from '../identities/tables.ts'
import type { Step } from './step.ts'

export const identityTables: Step = {
  to: 5,
  what: 'Who the patients are, encrypted, and the log of who looked',
  statements: { sqlite: sqliteIdentityTables, postgres: postgresIdentityTables },
}
