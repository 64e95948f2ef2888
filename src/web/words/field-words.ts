import { words } from './words.ts'

/** What a field of an entry is called on the screens: `body.figures[0].value` is "figures 1, value". */
export function fieldWords(field: string): string {
  if (field === 'happenedAt') return words.form.when
  return field
    .replace(/^body\./, '')
    .replaceAll(/\[(\d+)\]/g, (_, index: string) => ` ${Number(index) + 1}`)
    .replaceAll('.', ', ')
    .replaceAll(/([a-z])([A-Z])/g, (_, before: string, capital: string) => `${before} ${capital.toLowerCase()}`)
}
