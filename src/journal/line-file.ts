import { once } from 'node:events'
import { createReadStream, createWriteStream } from 'node:fs'
import { finished } from 'node:stream/promises'

/** Writes lines to a new file and syncs it; a file that is there already is never overwritten. */
export async function writeLines(file: string, lines: AsyncIterable<string>): Promise<void> {
  const out = createWriteStream(file, { flags: 'wx', flush: true })
  // Opened first, so that a file that cannot be written is told before anything is read.
  await once(out, 'open')
  for await (const line of lines) if (!out.write(`${line}\n`)) await once(out, 'drain')
  out.end()
  await finished(out)
}

/**
 * The lines of a file, without their ends. Only a line feed ends a line: text in JSON may hold U+2028, which
 * Node's own reader of lines takes for an end too.
 */
export async function* readLines(file: string): AsyncIterable<string> {
  let pending = ''
  for await (const chunk of createReadStream(file, 'utf8') as AsyncIterable<string>) {
    const lines = chunk.split('\n')
    const unfinished = lines.pop() ?? ''
    for (const line of lines) {
      yield pending + line
      pending = ''
    }
    pending += unfinished
  }
  if (pending !== '') yield pending
}
