import { execFile } from 'node:child_process'
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { promisify } from 'node:util'

/** The text of a PDF, page by page, as a reader of it that is not ours gets it. */
export async function pdfText(pdf: Uint8Array): Promise<readonly string[]> {
  const folder = await mkdtemp(join(tmpdir(), 'nilgrowth-pdf-'))
  try {
    const file = join(folder, 'page.pdf')
    await writeFile(file, pdf)
    const { stdout } = await promisify(execFile)('pdftotext', ['-layout', '-enc', 'UTF-8', file, '-'])
    return stdout.split('\f').slice(0, -1)
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}
