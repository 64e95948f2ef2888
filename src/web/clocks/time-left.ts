import type { ToldClock } from '#road/clocks/clocks-from.ts'

/** What is left of a clock: `hours:minutes:seconds`, the hours left out when there are none. */
export function timeLeft(clock: Pick<ToldClock, 'left'>): string {
  const seconds = Math.ceil(clock.left / 1000)
  const hours = Math.floor(seconds / 3600)
  const two = (value: number) => String(value).padStart(2, '0')
  return `${hours > 0 ? `${hours}:` : ''}${two(Math.floor((seconds % 3600) / 60))}:${two(seconds % 60)}`
}
