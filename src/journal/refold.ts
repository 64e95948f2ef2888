import type { Road } from '#road/road.ts'
import { entryOfText } from './chain.ts'
import type { Engine } from './engine.ts'
import { writeHead } from './head.ts'
import { selectChain } from './select-entries.ts'
import { metaValue, setMeta } from './meta.ts'
import type { Tx } from './tables.ts'
import { WorkingSet } from './working-set.ts'

const entriesAtOnce = 2000

/** Makes everything that is derived anew from the entries, in one transaction. Gives the number of entries. */
export async function refold(engine: Engine, tx: Tx, road: Road): Promise<number> {
  await engine.lockStore(tx)
  for (const table of ['about', 'known', 'milestone', 'link', 'head'] as const) await tx.deleteFrom(table).execute()
  const sites = await tx.selectFrom('entry').select('site').distinct().orderBy('site').execute()
  let count = 0
  for (const { site } of sites) {
    let afterSeq = 0
    while (true) {
      const page = await selectChain(tx, site, { afterSeq, limit: entriesAtOnce })
      const set = new WorkingSet(tx, site, road)
      let last
      for (const row of page) {
        last = entryOfText(row)
        await set.derive(last)
      }
      await set.write()
      if (last === undefined) break
      await writeHead(tx, site, last)
      afterSeq = last.seq
      count += page.length
    }
  }
  await setMeta(tx, 'road', road.version)
  return count
}

/** Refolds a store that was derived by another version of the road. */
export async function refoldIfOutdated(engine: Engine, road: Road): Promise<void> {
  if ((await metaValue(engine.reading, 'road')) === road.version) return
  await engine.transact(async (tx) => {
    await engine.lockStore(tx)
    // Another process may have done it while this one was waiting.
    if ((await metaValue(tx, 'road')) !== road.version) await refold(engine, tx, road)
  })
}
