import type { Command } from './command.ts'

/** Every command there is, in the order in which help shows them. */
export const commands: readonly Command[] = Object.freeze([
  {
    name: 'serve',
    summary: 'open the service and its screens (PORT, HOST, NILGROWTH_DATA or DATABASE_URL)',
    load: async () => (await import('./serve.ts')).runServe,
  },
  {
    name: 'record',
    summary: 'record entries from standard input, judged by the same rules as on a screen',
    load: async () => (await import('./record.ts')).runRecord,
  },
  {
    name: 'judge',
    summary: 'say what the rules would make of entries from standard input, writing nothing',
    load: async () => (await import('./judge.ts')).runJudge,
  },
  {
    name: 'known',
    summary: 'show what is known of a subject or of a kind of subject',
    load: async () => (await import('./known.ts')).runKnown,
  },
  {
    name: 'scan',
    summary: 'read a code as a scanner sends it or as it is printed, and find what it belongs to',
    load: async () => (await import('./scan.ts')).runScan,
  },
  {
    name: 'label',
    summary: 'make the label of a sealed pack: as text, for a label printer, as a picture or a PDF',
    load: async () => (await import('./label.ts')).runLabel,
  },
  {
    name: 'trace',
    summary: 'show what hangs together with a subject, back and forward',
    load: async () => (await import('./trace-subject.ts')).runTrace,
  },
  {
    name: 'wounds',
    summary:
      'show the follow-up calls that are due, the line list, the rates of infection, what the infected met, groups in time and place, a chart, or an investigation',
    load: async () => (await import('./wounds.ts')).runWounds,
  },
  {
    name: 'recall',
    summary: 'list the recalls, or show what one reaches',
    load: async () => (await import('./recall.ts')).runRecall,
  },
  {
    name: 'group',
    summary: 'show all sites of a store side by side: open recalls, indicators, rates, completeness',
    load: async () => (await import('./group.ts')).runGroup,
  },
  {
    name: 'verify',
    summary: 'check the chain, the attachments, the links and every fold',
    load: async () => (await import('./verify.ts')).runVerify,
  },
  {
    name: 'seal',
    summary: 'sign the end of the chain, to be printed or sent elsewhere; verify --seal FILE checks it',
    load: async () => (await import('./seal.ts')).runSeal,
  },
  {
    name: 'access',
    summary: 'by right of the store itself: give a person a one-time code to sign in with, list or end their sessions',
    load: async () => (await import('./access.ts')).runAccess,
  },
  {
    name: 'identity',
    summary: 'show, write, erase who a patient is, or list who looked, by right of the store and its key',
    load: async () => (await import('./identity.ts')).runIdentity,
  },
  {
    name: 'backup',
    summary: 'copy the running journal into a file, encrypted where a key is named, and verify it by a restore',
    load: async () => (await import('./backup.ts')).runBackup,
  },
  {
    name: 'restore',
    summary: 'make the journal from a backup; what was there is kept aside',
    load: async () => (await import('./restore.ts')).runRestore,
  },
  {
    name: 'export',
    summary:
      'write all entries and attachments as NDJSON, or one table as CSV, XLSX or JSON (export table NAME), or HL7 FHIR R4 (export fhir)',
    load: async () => (await import('./export.ts')).runExport,
  },
  {
    name: 'import',
    summary: 'take over the lines of an export, all or none',
    load: async () => (await import('./import.ts')).runImport,
  },
  {
    name: 'list',
    summary:
      'show what an operating list of another system would book, move and cancel (list read FILE), and record it once confirmed',
    load: async () => (await import('./list.ts')).runList,
  },
  {
    name: 'webhooks',
    summary: 'show who is told of entries, let one go on, or end it (webhooks list, resume ID, end ID)',
    load: async () => (await import('./webhooks.ts')).runWebhooks,
  },
  {
    name: 'move',
    summary:
      'carry the record of a site into another store with the same hashes (--to-data FILE or --to-database URL); here it is closed',
    load: async () => (await import('./move.ts')).runMove,
  },
  {
    name: 'refold',
    summary: 'make all that is derived anew from the entries',
    load: async () => (await import('./refold.ts')).runRefold,
  },
  {
    name: 'work',
    summary: 'list the workings, or run them on JSON from standard input',
    load: async () => (await import('./work.ts')).runWork,
  },
  {
    name: 'decide',
    summary: 'decide a case from the facts given, by the rules that judge the record',
    load: async () => (await import('./decide.ts')).runDecide,
  },
  {
    name: 'connect',
    summary: 'show or change where the logs of a machine come from by themselves: a watched folder, a printer line',
    load: async () => (await import('./connect.ts')).runConnect,
  },
  {
    name: 'arrived',
    summary: 'list the logs that came from a machine by themselves, or read one in for a load',
    load: async () => (await import('./arrived.ts')).runArrived,
  },
  {
    name: 'print',
    summary:
      'write the record of a load, the notice of a recall, the step card of a device or the quality report of a month for paper, in PDF',
    load: async () => (await import('./print.ts')).runPrint,
  },
  {
    name: 'read-cycle',
    summary: 'read the log of a steam cycle and judge it against a programme',
    load: async () => (await import('./read-cycle.ts')).runReadCycle,
  },
  {
    name: 'read-washer',
    summary: 'read the log of a washer-disinfector and judge it against a programme',
    load: async () => (await import('./read-washer.ts')).runReadWasher,
  },
  {
    name: 'read-gas',
    summary: 'read the log of a gas or dry heat cycle and judge it against a programme',
    load: async () => (await import('./read-gas.ts')).runReadGas,
  },
  {
    name: 'plan',
    summary:
      'plan the lists of a day with the sets and the line that serve them (plan day DATE), or run the plan many times (plan simulate DATE)',
    load: async () => (await import('./plan.ts')).runPlan,
  },
  {
    name: 'catalogue',
    summary: 'register devices from a CSV file or from the starter catalogue',
    load: async () => (await import('./catalogue.ts')).runCatalogue,
  },
  {
    name: 'step-card',
    summary: 'show the steps of a device, each with its source',
    load: async () => (await import('./step-card.ts')).runStepCard,
  },
  {
    name: 'docs',
    summary: 'write the reference pages, or check that they are current (--check)',
    load: async () => (await import('./docs.ts')).runDocs,
  },
])
