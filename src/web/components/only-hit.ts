import type { ScanAnswer } from '#road/scanning/scan-answer.ts'

/** The one thing that a code names: the only one that it names in full, or the only one whose name holds what was typed. */
export function onlyHit({ read, found }: ScanAnswer): ScanAnswer['found'][number] | undefined {
  const exact = found.filter((each) => each.exact)
  if (exact.length === 1) return exact[0]
  return exact.length === 0 && found.length === 1 && read.is === 'text' ? found[0] : undefined
}
