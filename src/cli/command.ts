/** The streams a command talks through; tests hand in their own. */
export interface CommandIo {
  readonly stdin: AsyncIterable<string | Uint8Array>
  readonly stdout: TextSink
  readonly stderr: TextSink
}

/** Takes text. What `write` gives back is awaited, so that a slow reader can slow the writer down. */
export interface TextSink {
  readonly write: (text: string) => unknown
}

/** Exit codes that every command shares. */
export const exit = { ok: 0, failed: 1, unusableInput: 2 } as const

/** Runs one command with its own arguments; gives the exit code. */
type RunCommand = (args: string[], io: CommandIo) => Promise<number>

/** One line of the command table. The module is loaded only when the command is used. */
export interface Command {
  readonly name: string
  readonly summary: string
  readonly load: () => Promise<RunCommand>
}
