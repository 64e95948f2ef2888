import { existsSync } from 'node:fs'
import { type Browser, chromium } from 'playwright-core'

/** Opens Debian's Chromium without a window, and without its own calls to the network. */
export async function openBrowser(): Promise<Browser> {
  const executablePath = process.env['CHROMIUM'] ?? '/usr/bin/chromium'
  if (!existsSync(executablePath)) {
    throw new Error(
      `Cannot open a browser: wanted Chromium at ${executablePath}, found nothing. On Debian: apt-get install chromium; elsewhere set CHROMIUM to its path`,
    )
  }
  return await chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  })
}
