import { join } from 'node:path'
import { performance } from 'node:perf_hooks'
import { openBrowser } from '../tests/support/browser.ts'
import { runService } from '../tests/support/running-service.ts'
import { type BenchRow, summarise } from './measure.ts'

const runs = 5

/** First screen in a new browser on an empty store: time to its heading, and bytes as they came over the wire. */
export async function screensBench(): Promise<readonly BenchRow[]> {
  await using service = await runService({ screens: join(import.meta.dirname, '../dist') })
  const browser = await openBrowser()
  try {
    const milliseconds: number[] = []
    const kilobytes: number[] = []
    for (let run = -1; run < runs; run += 1) {
      const context = await browser.newContext({ viewport: { width: 820, height: 1180 } })
      const page = await context.newPage()
      const session = await context.newCDPSession(page)
      let bytes = 0
      await session.send('Network.enable')
      session.on('Network.loadingFinished', (event) => {
        bytes += event.encodedDataLength
      })
      const started = performance.now()
      await page.goto(service.url)
      await page.getByRole('heading', { level: 1 }).waitFor()
      const took = performance.now() - started
      await page.waitForTimeout(500)
      await context.close()
      if (run < 0) continue
      milliseconds.push(took)
      kilobytes.push(bytes / 1000)
    }
    return [
      summarise('first screen, to its heading', 'ms', milliseconds, 'new browser profile each time, loopback'),
      summarise('first screen, all bytes over the wire', 'kB', kilobytes, 'compressed'),
    ]
  } finally {
    await browser.close()
  }
}
