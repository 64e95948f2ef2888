// Makes the icons of the installed program from the mark: node tests/support/icons.ts
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { openBrowser } from './browser.ts'

const folder = join(import.meta.dirname, '../../src/web/public')
const mark = readFileSync(join(folder, 'icon.svg'), 'utf8')
// A launcher cuts a maskable icon to a shape of its own: the ground goes to the edge, and the mark stays in the middle.
const maskable = mark.replace('rx="6" ', '').replace('scale(0.9)', 'scale(0.68)')

const pictures = [
  { name: 'icon-192.png', svg: mark, pixels: 192 },
  { name: 'icon-512.png', svg: mark, pixels: 512 },
  { name: 'icon-maskable-512.png', svg: maskable, pixels: 512 },
] as const

const browser = await openBrowser()
try {
  for (const { name, svg, pixels } of pictures) {
    // One picture after the other, from one page at a time.
    /* oxlint-disable no-await-in-loop */
    const page = await browser.newPage({ viewport: { width: pixels, height: pixels } })
    await page.setContent(`<style>body { margin: 0 } svg { display: block; width: 100vw }</style>${svg}`)
    writeFileSync(join(folder, name), await page.screenshot({ omitBackground: true }))
    await page.close()
    /* oxlint-enable no-await-in-loop */
  }
} finally {
  await browser.close()
}
