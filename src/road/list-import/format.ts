export const listFormats = ['csv', 'icalendar', 'hl7'] as const
export type ListFormat = (typeof listFormats)[number]

/** The format of a file by its name, else by how it begins. */
export function formatOf(name: string, text: string): ListFormat {
  if (/\.ics$/i.test(name) || /^\s*BEGIN:VCALENDAR/i.test(text)) return 'icalendar'
  return /\.hl7$/i.test(name) || /^(?:MSH|FHS|BHS)\W/.test(text.trimStart()) ? 'hl7' : 'csv'
}
