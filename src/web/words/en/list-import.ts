import type { ListColumn } from '#road/list-import/mapping.ts'
import type { ListPreviewRow } from '#service/api-types.ts'

const columns: Record<ListColumn, string> = {
  ref: 'Number of the operation there',
  start: 'Begins (date and time)',
  date: 'Day, where it has a column of its own',
  time: 'Time, where it has a column of its own',
  minutes: 'Length in minutes',
  theatre: 'Theatre',
  surgeon: 'Surgeon',
  procedure: 'Operation',
  implant: 'Implant planned (yes or no)',
  status: 'Booked or cancelled',
  pseudonym: 'Number that stands for the patient',
  hospitalNumber: 'Hospital number of the patient',
  name: 'Name of the patient',
  bornOn: 'Day of birth',
  phone: 'Telephone',
}

const acts: Record<ListPreviewRow['act'], string> = {
  book: 'Book',
  move: 'Move',
  change: 'Change',
  cancel: 'Cancel',
  same: 'No change',
  older: 'Older than the record',
  replaced: 'Said again further on',
  cannot: 'Cannot be read',
}

export const listImportWords = {
  title: 'List from another system',
  lead: 'Takes a spreadsheet saved as CSV, a calendar (iCalendar), or messages of HL7 version 2 (SIU). First it shows what would change. Nothing is recorded before you confirm it.',
  file: 'File',
  reading: 'Reading…',
  shows: 'What it would change',
  counts: (toRecord: number, cannot: number) =>
    `${toRecord} to record${cannot === 0 ? '' : `, ${cannot} cannot be read`}.`,
  identities: (count: number) =>
    `The list says who the patient is in ${count} of them. That is written beside the record, never in it, where the unit keeps it and it is your task; else it is left out.`,
  lookAtNames: 'What is shown here is written as it stands. Look whether the name of a patient stands in it.',
  acts,
  columns,
  table: {
    line: 'Line',
    act: 'What',
    case: 'Case',
    when: 'When',
    where: 'Theatre',
    what: 'Operation',
    who: 'Surgeon',
    says: 'Why',
  },
  was: (text: string) => `was ${text}`,
  onlyAct: 'Show',
  mapping: 'How this list is read',
  mappingSays: 'Which column is which, and who the surgeons of that system are here. It is kept for the next list.',
  notThere: 'By its own name',
  nobody: 'Not chosen',
  surgeons: 'Surgeons whom nobody here is called',
  dateOrder: 'In a date such as 03.04.2027 comes first',
  dateOrders: { dayFirst: 'the day', monthFirst: 'the month' },
  implant: 'Whether an implant is planned is not said in the list',
  implants: { yes: 'Take it as yes (strict)', no: 'Take it as no' },
  keep: 'Keep and look again',
  record: (count: number) => (count === 1 ? 'Record 1 change' : `Record ${count} changes`),
  nothing: 'Nothing to record: every line is on record as it stands, or cannot be read.',
  done: (kept: number, not: number) => `${kept} recorded${not === 0 ? '' : `, ${not} not: see below`}.`,
  doneIdentities: (kept: number, left: number) =>
    `Who the patient is: written beside the record for ${kept}, left out for ${left}.`,
  line: (line: number, says: string) => `Line ${line}: ${says}`,
}
