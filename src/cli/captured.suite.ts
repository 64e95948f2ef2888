import type { CommandIo } from './command.ts'

/** Streams for a command under test: hand in chunks, read what was written. */
export function captured(...chunks: readonly (string | Uint8Array)[]) {
  let out = ''
  let err = ''
  const io: CommandIo = {
    stdin: streamOf(chunks),
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text) },
  }
  return { io, out: () => out, err: () => err }
}

async function* streamOf(chunks: readonly (string | Uint8Array)[]) {
  for (const chunk of chunks) yield chunk
}
