import type { Source } from '#units/source.ts'

export const exposureTalk: Source = {
  title:
    'Rutala and Weber, how to assess risk after a failure of disinfection or sterilisation, as reported from a lecture',
  edition: '2007',
  status: 'secondary',
}

export const exposureRecalled: Source = { ...exposureTalk, clause: 'steps 12 to 14, from memory', status: 'unverified' }

export const breachSteps: Source = {
  title: 'CDC, steps for evaluating an infection control breach',
  clause: 'category A: gross error or high-risk practice; category B: lower likelihood of exposure',
  status: 'confirmed',
}

export interface ExposureStep {
  readonly id: string
  readonly says: string
  readonly source: Source
}

const told = (id: string, says: string): ExposureStep => ({ id, says, source: exposureTalk })
const recalled = (id: string, says: string): ExposureStep => ({ id, says, source: exposureRecalled })

/** What is done after a failure that may have reached patients, in order. */
export const exposureSteps: readonly ExposureStep[] = Object.freeze([
  told('confirm', 'Confirm that a failure occurred; reprocess the device in question now.'),
  told('embargo', 'Keep every item in question from use, in all areas.'),
  told('stop', 'Find the process involved and do not use the machine or bath in question.'),
  told('inform', 'Tell infection control, the surgeons, theatre and the management.'),
  told('cause', 'Look for what may have led to it, and for what speaks against that.'),
  told('lineList', 'List the patients exposed, and how far each was.'),
  told('risk', 'Judge the risk from the literature and the guidelines.'),
  told('update', 'Tell those who were told before what is known now.'),
  told('correct', 'State a hypothesis, and correct what stands against the process.'),
  told('harm', 'Look for harm: follow the cohort, read the records, examine.'),
  told('authorities', 'With legal advice, notify the authorities where that is required.'),
  recalled('patients', 'Notify the patients where it is indicated.'),
  recalled('follow', 'Follow them long enough, as with blood tests.'),
  recalled('report', 'Write what happened and what was changed.'),
])
