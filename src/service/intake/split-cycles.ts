import type { LineSettings } from '../machine-answers.ts'

/** Where the splitting of a machine's lines into cycles stands. */
export interface Splitting {
  readonly state: 'idle' | 'running' | 'ending'
  /** When the last line came, in milliseconds. */
  readonly lastAt: number
}

export type EndedBy = 'endMark' | 'nextStart' | 'silence' | 'tooLong'

export interface Split {
  readonly after: Splitting
  /** A piece ends before this line. */
  readonly endsBefore: EndedBy | null
  /** Whether the line is kept at all: an empty one between two cycles is not. */
  readonly keeps: boolean
}

export const idle: Splitting = { state: 'idle', lastAt: 0 }

/** After the end mark a printer may still print who ran it: what comes this soon belongs to the cycle. */
const trailerMilliseconds = 3000

type Marks = Pick<LineSettings, 'startMark' | 'endMark' | 'silenceSeconds'>

/** What a line does to the cycle that is printed. A line without its start begins one too, so that nothing printed is lost. */
export function withLine(before: Splitting, line: string, at: number, marks: Marks): Split {
  const starts = holds(line, marks.startMark)
  const open = before.state !== 'idle'
  const quiet = open ? endedByQuiet(before, at, marks) : null
  const endsBefore = quiet ?? (open && starts ? 'nextStart' : null)
  const goesOn = open && endsBefore === null
  if (!goesOn && line.trim() === '') return { after: { ...idle, lastAt: at }, endsBefore, keeps: false }
  const ends = holds(line, marks.endMark) || (goesOn && before.state === 'ending')
  return { after: { state: ends ? 'ending' : 'running', lastAt: at }, endsBefore, keeps: true }
}

/** Whether a cycle is over by now, since nothing more was printed. */
export function endedByQuiet(
  { state, lastAt }: Splitting,
  now: number,
  { silenceSeconds }: Pick<Marks, 'silenceSeconds'>,
): EndedBy | null {
  const quiet = now - lastAt
  if (state === 'ending' && quiet >= trailerMilliseconds) return 'endMark'
  return state === 'running' && quiet >= silenceSeconds * 1000 ? 'silence' : null
}

function holds(line: string, mark: string | null): boolean {
  return mark !== null && line.toLowerCase().includes(mark.toLowerCase())
}
