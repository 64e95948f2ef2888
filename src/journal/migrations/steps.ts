import { credentialTables } from './credential-tables.ts'
import { entriesBySite } from './entries-by-site.ts'
import { movedBeside } from './moved-beside.ts'
import { movedTable } from './moved-table.ts'
import { passkeyTables } from './passkey-tables.ts'
import { identityTables } from './identity-tables.ts'
import { sealTable } from './seal-table.ts'
import type { Step } from './step.ts'

/** The format of the tables as `sqlite/tables.ts` and `postgres/tables.ts` make them. */
export const firstFormat = 1

/** All changes since, in their order. A new store goes through every one of them, so that there is one way to the tables. */
export const steps: readonly Step[] = Object.freeze([
  sealTable,
  credentialTables,
  movedTable,
  identityTables,
  passkeyTables,
  movedBeside,
  entriesBySite,
])
