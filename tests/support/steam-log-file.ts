import type { Locator } from 'playwright-core'
import { seededRandom } from './seeded-random.ts'
import { trueCycle } from './simulated-cycle.ts'
import { plainStyle, sampleRows, writeLog } from './simulated-log.ts'

export interface LogFile {
  readonly name: string
  readonly text: string
  readonly minutes: number
}

/** The file that a steriliser writes of a sound cycle, but for its holding time. */
export function steamLogFile(name: string, holdSeconds: number): LogFile {
  const cycle = trueCycle({
    sterilisationC: 134,
    holdSeconds,
    loadDelays: [3, 6],
    riseK: 0.8,
    riseSeconds: 15,
    pressureOffsetKPa: 0,
    hotLoadK: 0,
    dip: null,
    aboveK: null,
    pulseLowsKPa: [8, 8, 8],
    dryingSeconds: 500,
    idleSeconds: 60,
  })
  const style = { ...plainStyle, noiseK: 0.02, stepK: 0.01, dressing: 'dressed' } as const
  const rows = sampleRows(cycle, style, { kind: 'none' }, seededRandom(7))
  return { name, text: writeLog(rows, style, 2, false), minutes: Math.ceil(cycle.endSeconds / 60) }
}

/** Drags a file over a place and lets it fall there, as from a folder of the desktop. */
export async function dropFile(on: Locator, { name, text }: LogFile): Promise<void> {
  const dataTransfer = await on.page().evaluateHandle(`{
    const transfer = new DataTransfer()
    transfer.items.add(new File([${JSON.stringify(text)}], ${JSON.stringify(name)}, { type: 'text/csv' }))
    transfer
  }`)
  for (const event of ['dragenter', 'dragover', 'drop']) {
    // oxlint-disable-next-line no-await-in-loop
    await on.dispatchEvent(event, { dataTransfer })
  }
}
