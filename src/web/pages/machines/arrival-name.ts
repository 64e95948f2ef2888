import type { ArrivalRow } from '#service/machine-answers.ts'
import { words } from '../../words/words.ts'

/** A file is called by its name; what was printed has none, and is called by when it was. */
export function nameOf({ from, name, arrivedAt }: ArrivalRow, moment: (at: string) => string): string {
  return from === 'folder' ? name : words.connect.printed(moment(arrivedAt))
}
