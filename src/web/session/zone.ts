/** 25 Nov 2026, 09:31 in the time zone. */
export function momentIn(timeZone: string, instant: string): string {
  const date = { day: 'numeric', month: 'short', year: 'numeric' } as const
  const clock = { hour: '2-digit', minute: '2-digit' } as const
  return new Intl.DateTimeFormat('en-GB', { timeZone, ...date, ...clock }).format(new Date(instant))
}
