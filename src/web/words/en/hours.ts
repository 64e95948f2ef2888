import type { Bodies } from '#road/kinds.ts'

type Hours = Bodies['hours-set']['hours']

export const hoursWords = {
  title: 'Working hours',
  lead: 'What the plan of a day may use, and when. Where nothing is set it goes by a default, and says so.',
  addTheatre: 'Add a theatre',
  newTheatre: { kind: 'theatre', theatre: '', opens: '', closes: '', mustClose: '' } as const,
  defaults: 'The defaults, with their source',
  isSet: 'set',
  isDefault: 'default',
  set: 'Set',
  setOf: (name: string) => `Set hours: ${name}`,
  changeOf: (name: string) => `Change hours: ${name}`,
  setDo: 'Set the hours',
  formDefault: 'Nothing is set yet: the times below are the defaults.',
  places: { washRoom: 'Wash room', packing: 'Packing' },
  theatre: 'Theatre',
  opens: 'Opens',
  closes: 'Closes',
  mustClose: 'Must close (overtime ends)',
  count: 'Staff',
  from: 'From',
  to: 'To',
  runPlaces: 'Sets in one run',
  runMinutes: 'One run with drying, min',
  clockHint: 'Such as 07:30. 24:00 is the end of the day.',
  elseRecord: (byDefault: number | undefined) =>
    `Left empty: from its runs on record, else ${byDefault === undefined ? 'the usual time of its method' : `the default of ${byDefault}`}.`,
  order: {
    theatre: 'it opens before it closes, and closes no later than it must',
    staff: 'they begin before they end',
    machine: 'it begins before it ends',
  },
  says: (hours: Hours): string => {
    switch (hours.kind) {
      case 'theatre':
        return `${hours.opens} to ${hours.closes}, must close ${hours.mustClose}`
      case 'staff':
        return `${hours.from} to ${hours.to}, ${hours.count} staff`
      case 'machine':
        return [
          `${hours.from} to ${hours.to}`,
          ...(hours.places === undefined ? [] : [`${hours.places} sets a run`]),
          ...(hours.runMinutes === undefined ? [] : [`${hours.runMinutes} min a run`]),
        ].join(', ')
    }
  },
}
