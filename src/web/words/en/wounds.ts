import type { Prevention } from '#road/operating/prevention-entries.ts'
import type { Procedure } from '#road/operating/procedures.ts'
import type { RuledCriterion } from '#road/wounds/case-definition.ts'
import type { Call, CallState } from '#road/wounds/follow-up/follow-ups-of.ts'
import { riskWords } from './risk.ts'
import { surveillanceWords } from './surveillance.ts'
import type { Bodies } from '#road/kinds.ts'

type Made = Bodies['follow-up-made']

const criteria: Record<RuledCriterion, string> = {
  pusFromIncision: 'Pus from the skin wound',
  organismFromIncision: 'A germ from a clean sample of the skin wound',
  openedBySurgeonWithSigns: 'Opened by the surgeon, with pain, swelling, redness or heat',
  diagnosedBySurgeon: 'Called an infection of the skin wound by the surgeon',
  pusFromDeep: 'Pus from fascia or muscle, not from the space below',
  openedOrBurstWithFeverOrPain: 'Burst or was opened down to the fascia, with fever above 38 °C or pain',
  abscessOfDeep: 'Abscess of fascia or muscle seen, or found at reoperation or on a picture',
  pusFromDrain: 'Pus from a drain in the organ or space',
  organismFromSpace: 'A germ from a clean sample of the organ or space',
  abscessOfSpace: 'Abscess of the organ or space seen, or found at reoperation or on a picture',
  cultureNegative: 'Culture taken, and nothing grew',
  stitchAbscessOnly: 'No more than a little redness and discharge at the stitches',
}

const callWhy: Record<Call['why'], string> = {
  early: 'First call',
  windowEnds: 'End of the counted days',
  slowOrganisms: 'For slow germs',
}

const callStates: Record<CallState, string> = {
  done: 'Done',
  later: 'Later',
  due: 'Due',
  overdue: 'Overdue',
  lost: 'Lost',
  notNeeded: 'Not needed',
}

const means: Record<Made['means'], string> = {
  phone: 'Phone',
  visit: 'Visit',
  message: 'Message',
  record: 'Patient record',
  letter: 'Letter',
}
const reached: Record<Made['reached'], string> = {
  patient: 'The patient',
  relative: 'A relative',
  otherClinician: 'Another clinician',
  nobody: 'Nobody',
}
const heard: Record<Made['wound'], string> = { well: 'Well', suspicious: 'Not well', unknown: 'Not known' }
const signs: Record<Made['signs'][number], string> = {
  redness: 'Redness',
  discharge: 'Discharge',
  pain: 'Pain',
  swelling: 'Swelling',
  fever: 'Fever',
  opened: 'Has opened',
  lump: 'A lump at a port',
}
const endings: Record<Bodies['follow-up-ended']['because'], string> = {
  notReached: 'Cannot be reached',
  declined: 'Does not want to be called',
  movedAway: 'Moved away',
  died: 'Died',
  followedElsewhere: 'Followed elsewhere',
}
const treatments: Record<Bodies['wound-treated']['what'], string> = {
  opened: 'Wound opened',
  drained: 'Drained',
  antibiotic: 'Antibiotic',
  reoperation: 'Operated again',
  implantRemoved: 'Implant removed',
  readmission: 'Admitted again',
  healed: 'Healed',
  death: 'Died',
}
const materials: Record<Bodies['wound-cultured']['material'], string> = {
  swab: 'Swab',
  pus: 'Pus',
  tissue: 'Tissue',
  fluid: 'Fluid',
  blood: 'Blood',
}

const preventions: Record<Prevention, string> = {
  antibioticProphylaxis: 'Antibiotic before incision',
  skinPreparation: 'Skin prepared with alcohol',
  warmth: 'Kept warm',
  glucose: 'Glucose watched',
  glovesChangedBeforeImplant: 'Gloves changed before the implant',
  implantThroughPort: 'Implant brought in through a port, not the skin',
  specimenInBag: 'Specimen taken out in a bag',
  woundProtector: 'Wound protector',
}

const procedures: Record<Procedure, string> = {
  inguinalHernia: 'Groin hernia',
  ventralHernia: 'Hernia of the abdominal wall',
  splenectomy: 'Spleen',
  adrenalectomy: 'Adrenal gland',
  fundoplication: 'Fundoplication',
  varicocele: 'Varicocele',
  diagnosticLaparoscopy: 'Diagnostic laparoscopy',
  tubalLigation: 'Tubal ligation',
  cholecystectomy: 'Gall bladder',
  bileDuct: 'Bile duct',
  bariatric: 'Bariatric',
  colectomy: 'Colon',
  rectal: 'Rectum',
  smallBowel: 'Small bowel',
  appendectomy: 'Appendix',
  hysterectomy: 'Uterus',
  nephrectomy: 'Kidney',
  cystotomy: 'Bladder',
  perforatedUlcer: 'Perforated ulcer',
  other: 'Other',
}

export const woundWords = {
  criteria,
  callWhy,
  callStates,
  means,
  reached,
  heard,
  signs,
  endings,
  treatments,
  materials,
  preventions,
  procedures,
  places: {
    register: 'Register',
    rates: 'Rates',
    charts: 'Charts',
    suspects: 'What the infected met',
    investigations: 'Investigations',
  },
  ...surveillanceWords,
  risk: riskWords,
  calls: {
    title: 'Follow-up calls',
    none: 'No call is due. Those of the next days come here on their day.',
    next: (patient: string) => `Call ${patient}.`,
    due: (count: number) => (count === 1 ? '1 call is due' : `${count} calls are due`),
    dueOf: (count: number, shown: number) => `${count} calls are due. These are the ${shown} longest overdue.`,
    all: (count: number) => `Show all ${count} calls`,
    fewer: (count: number) => `Show the first ${count} only`,
    make: 'Make the call',
    on: (day: number, when: string) => `day ${day}, ${when}`,
    attempts: (count: number) => (count === 1 ? 'tried once' : `tried ${count} times`),
    operated: 'Operated',
  },
  followUp: {
    title: 'Follow-up',
    of: (procedure: string, patient: string, day: string) => `${procedure}, ${patient}, operated on ${day}`,
    means: 'How',
    reached: 'Who was reached',
    wound: 'The wound',
    signs: 'What is wrong',
    alive: 'The patient lives',
    aliveAnswers: { yes: 'Yes', no: 'No', unknown: 'Not known' },
    note: 'Note',
    keep: 'Keep this follow-up',
    end: 'End the follow-up',
    endSays: 'The case stays in the denominator. Every rate shows how many are like it, and what they could hide.',
    because: 'Because',
    made: 'Made so far',
    calls: 'Calls of this case',
    noteWound: 'Note the wound',
    keptWell: 'The call is kept.',
    keptNobody: 'The try is kept. The call stays due.',
    keptNotWell:
      'The call is kept. Something is wrong with this wound: note it, so that somebody looks at it and judges it.',
    toCalls: 'To the calls that are due',
    another: 'Keep another follow-up of this case',
  },
  wound: {
    title: 'Wound',
    judge: 'Judge by the definition',
    judgeAgain: 'Judge it anew',
    judgeSays: 'Tick what was seen. One criterion of a depth is enough; the deepest stands.',
    outcome: 'This is',
    outcomes: { infection: 'An infection of the surgical site', notInfection: 'No infection by the definition' },
    eventAt: 'Day of the first criterion',
    why: 'Why',
    whyNone: 'nothing is ticked: say why it is no infection',
    judgeDo: 'Keep the judgement',
    judged: 'Judged',
    notJudged: 'Not judged yet: it counts in no rate.',
    culture: 'Add a culture',
    material: 'Material',
    cultureDo: 'Keep the culture',
    treat: 'Add what was done',
    what: 'What',
    treatDo: 'Keep',
    story: 'Story of this wound',
    counted: (days: number) => `Day ${days} after the operation, within the counted days.`,
    lateOn: (days: number) =>
      `Day ${days} after the operation, outside the counted days: kept beside the rates as late.`,
    related: 'The infection had to do with it',
    relatedAnswers: { yes: 'Yes', no: 'No', unknown: 'Not known' },
    relatedSays: {
      yes: 'the infection had to do with it',
      no: 'the infection had nothing to do with it',
      unknown: 'not known whether the infection had to do with it',
    },
    standing: 'Judged',
    standings: { noted: 'Not judged yet', infection: 'Infection', notInfection: 'No infection' },
    unjudged: (count: number) =>
      count === 1
        ? '1 wound is not judged yet and counts in no rate:'
        : `${count} wounds are not judged yet and count in no rate:`,
    all: (count: number) => `Show all ${count} wounds`,
    fewer: (count: number) => `Show the newest ${count} only`,
  },
  rates: {
    title: 'Rates of infection',
    lead: 'Infections within their counted days, for all operations that were recorded. The interval says how sure a rate can be; best and worst case what those who were lost could hide.',
    by: 'By',
    groups: {
      procedure: 'Operation',
      month: 'Month',
      surgeon: 'Surgeon',
      theatre: 'Theatre',
      woundClass: 'Wound class',
      riskIndex: 'Risk index',
    },
    days: 'Of the last',
    dayChoices: { '90': '90 days', '365': 'year', '1095': 'three years' },
    all: 'All operations',
    infections: 'Infections',
    rate: 'Rate',
    interval: '95 % interval',
    followed: 'Followed up',
    followedOf: (known: number, ended: number, running: number) =>
      running === 0 ? `${known} of ${ended}` : `${known} of ${ended}, ${running} still running`,
    bounds: 'Best and worst case of the lost',
    boundsSay: (best: string, worst: string) =>
      `If every lost one stayed well: ${best}. If every lost one were infected: ${worst}.`,
    boundInputs: (infections: number, operations: number, lost: number) =>
      `${infections} infections in ${operations} operations, ${lost} lost to follow-up`,
    late: 'Late',
    unjudged: (count: number) =>
      count === 1
        ? '1 wound is not judged yet and counts in no rate.'
        : `${count} wounds are not judged yet and count in no rate.`,
    small: 'Small numbers: a rate of one surgeon or month alone says little. It accuses nobody.',
    prevention: 'What guards the wounds',
    preventionSays: 'Of the cases in which it applied or nothing is known, how often it was done.',
    complete: (part: number, whole: number) => `${part} of ${whole} operations have an answer to every one of these.`,
    done: 'Done',
    notDone: 'Not done',
    unknown: 'Not known',
    none: 'No operation is recorded in this time.',
    percent: (share: number) => `${(share * 100).toFixed(1)} %`,
    of: (part: number, whole: number) => `${part} of ${whole}`,
  },
} as const
