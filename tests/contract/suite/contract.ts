import type { EngineUnderTest } from '../../support/store-under-test.ts'
import { appending } from './appending.ts'
import { committing } from './committing.ts'
import { correcting } from './correcting.ts'
import { guarding } from './guarding.ts'
import { identifying } from './identifying.ts'
import { migrating } from './migrating.ts'
import { moving } from './moving.ts'
import { ordering } from './ordering.ts'
import { refusing } from './refusing.ts'
import { sealing } from './sealing.ts'
import { walking } from './walking.ts'

/** What the journal promises, whatever engine keeps it. Every engine runs all of it on a real database. */
export function journalContract(engine: EngineUnderTest): void {
  appending(engine)
  refusing(engine)
  correcting(engine)
  ordering(engine)
  committing(engine)
  guarding(engine)
  identifying(engine)
  moving(engine)
  migrating(engine)
  sealing(engine)
  walking(engine)
}
