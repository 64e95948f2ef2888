import { existsSync } from 'node:fs'
import { type Browser, chromium } from 'playwright-core'

/** Where Debian puts it: without the parts that draw windows, which take a fifth more work, or with them. */
const places = ['/usr/bin/chromium-headless-shell', '/usr/bin/chromium']

/** Opens Debian's Chromium without a window, and without its own calls to the network. */
export async function openBrowser(more: readonly string[] = []): Promise<Browser> {
  const named = process.env['CHROMIUM']
  const wanted = named === undefined ? places : [named]
  const executablePath = wanted.find((file) => existsSync(file))
  if (executablePath === undefined) {
    throw new Error(
      `Cannot open a browser: wanted Chromium at ${wanted.join(' or ')}, found nothing. On Debian: apt-get install chromium-headless-shell; elsewhere set CHROMIUM to its path`,
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
      ...more,
    ],
  })
}
