import { postgresPasskeyTables, sqlitePasskeyTables } from '../credentials/passkey-tables.ts'
import type { Step } from './step.ts'

export const passkeyTables: Step = {
  to: 6,
  what: 'Passkeys, and what was asked of them',
  statements: { sqlite: sqlitePasskeyTables, postgres: postgresPasskeyTables },
}
