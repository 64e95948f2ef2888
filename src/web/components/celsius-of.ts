import { Celsius } from '#units/quantities.ts'

/** A temperature from a field; nothing when the field is empty or holds none. */
export function celsiusOf(text: string): Celsius | undefined {
  return text.trim() === '' ? undefined : Celsius.safeParse(Number(text)).data
}
