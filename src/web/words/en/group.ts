export const groupWords = {
  title: 'Sites side by side',
  lead: 'Counts and rates of each site of the group, by name. No patient, no case and no person is shown. A small site has a wide interval: this list ranks nobody.',
  notHere:
    'This service compares no other sites. Whoever runs it starts the service of the group with the names of its sites.',
  days: 'Of the last',
  site: 'Site',
  noUnit: 'no unit is open there',
  recalls: 'Open recalls',
  indicators: 'Indicator grew in',
  indicatorsOf: (grown: number, read: number) => (read === 0 ? 'none read' : `${grown} of ${read} loads`),
  prevention: 'Prevention answered',
  lastRecorded: (site: string, at: string) => `${site}, last recorded ${at}`,
  answered: (part: number, whole: number) => (whole === 0 ? '—' : `${part} of ${whole}`),
}
