import { postgresCredentialTables } from '../credentials/postgres-tables.ts'
import { sqliteCredentialTables } from '../credentials/sqlite-tables.ts'
import type { Step } from './step.ts'

export const credentialTables: Step = {
  to: 3,
  what: 'Who may sign in, who has, and the log of it',
  statements: { sqlite: sqliteCredentialTables, postgres: postgresCredentialTables },
}
