/** A line as it is kept: without control characters, and cut where it is longer than any printer prints. */
export interface PrintedLine {
  readonly text: string
  readonly cut: boolean
}

export interface LineBuffer {
  /** Takes what came; gives the lines that are whole by now. */
  readonly take: (bytes: Uint8Array) => readonly PrintedLine[]
  /** What came of a line that never ended. */
  readonly rest: () => PrintedLine | undefined
}

export const longestLineBytes = 2000

const lineFeed = 0x0a
const carriageReturn = 0x0d
const formFeed = 0x0c

/** Escape sequences of printers and terminals: ESC [ … letter, or ESC and one character. */
// oxlint-disable-next-line no-control-regex
const escapes = /\u001b(?:\[[0-?]*[ -/]*[@-~]|[^[])?/g
// oxlint-disable-next-line no-control-regex
const controls = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/g

/** Puts a stream together into lines, wherever its packets were cut. However long a line is, no more than its bound is held. */
export function lineBuffer(): LineBuffer {
  let held: number[] = []
  let cut = false
  let afterReturn = false
  const end = (): PrintedLine => {
    const line = { text: textOf(Uint8Array.from(held)), cut }
    held = []
    cut = false
    return line
  }
  return {
    take(bytes) {
      const lines: PrintedLine[] = []
      for (const byte of bytes) {
        const secondOfPair = byte === lineFeed && afterReturn
        afterReturn = byte === carriageReturn
        if (secondOfPair) continue
        if (byte === lineFeed || byte === carriageReturn || byte === formFeed) lines.push(end())
        else if (held.length < longestLineBytes) held.push(byte)
        else cut = true
      }
      return lines
    },
    rest: () => (held.length === 0 ? undefined : end()),
  }
}

/** UTF-8 where it is that, else a byte a letter, as printers write; what only moves paper is left out. */
function textOf(bytes: Uint8Array): string {
  let text: string
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    text = new TextDecoder('windows-1252').decode(bytes)
  }
  return text.replaceAll(escapes, '').replaceAll(controls, '').trimEnd()
}
