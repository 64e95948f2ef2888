export const tableWords = {
  title: 'Tables for other programs',
  lead: 'Every table that the program lists, as CSV, as a sheet (XLSX) or as JSON, an object a line. Patients stand there by their number alone. Moments are in UTC; the names of the columns have the unit in them.',
  from: 'From',
  to: 'To, that day included',
  period: 'Without days, the whole record is taken. A row counts by its own moment: the one named with its table.',
  forms: { csv: 'CSV', xlsx: 'Sheet (XLSX)', jsonl: 'JSON lines' },
  columns: (count: number) => `${count} columns`,
  countsBy: (column: string) => `counts by ${column}`,
  fhir: 'HL7 FHIR R4',
  fhirSays:
    'Devices, their use, operations, infections of wounds, indicators and cycles, and who recorded what, as resources. Read and searched at /fhir/R4.',
  fhirForms: { bundle: 'Bundle', ndjson: 'NDJSON' },
  saveAs: (title: string, form: string) => `${title} as ${form}`,
}
