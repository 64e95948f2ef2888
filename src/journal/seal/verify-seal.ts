import { openEngine } from '../open-journal.ts'
import type { Place } from '../place.ts'
import { checkSeal } from './check-seal.ts'
import type { Seal, SealCheck } from './seal.ts'

/** Holds a store, as it is, against a seal that was kept elsewhere. */
export async function verifySeal(at: Place, seal: Seal, publicKey?: string): Promise<SealCheck> {
  const engine = await openEngine(at, 'asItIs')
  try {
    return await engine.snapshot((db) => checkSeal(db, seal, publicKey))
  } finally {
    await engine.close()
  }
}
