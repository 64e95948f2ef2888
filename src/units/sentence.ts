/** A text as one sentence: ended by a full stop unless it already ends. What people typed may do either. */
export function sentence(text: string): string {
  const trimmed = text.trimEnd()
  return /[.!?…]$/.test(trimmed) ? trimmed : `${trimmed}.`
}
