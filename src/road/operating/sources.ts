import type { Source } from '#units/source.ts'

/* Where the rules of wound class and antibiotic prophylaxis come from. */

export const cdcWoundClass: Source = {
  title: 'CDC Guideline for Prevention of Surgical Site Infection',
  edition: '1999',
  clause: 'Table 7, surgical wound classification',
  status: 'confirmed',
}

export const neverClean: Source = {
  title: 'NHSN surgical site infection protocol, from memory',
  clause: 'procedures that are never class I',
  status: 'unverified',
}

export const combinedOperations: Source = {
  title: 'Combined operations through one incision',
  clause: 'the higher wound class counts',
  status: 'proposal',
}

export const prophylaxisDoses: Source = {
  title: 'Bratzler and others, antimicrobial prophylaxis in surgery, Am J Health-Syst Pharm 70:195',
  edition: '2013',
  clause: 'Table 1',
  status: 'confirmed',
}

export const prophylaxisTiming: Source = {
  title: 'Antimicrobial prophylaxis in surgery (ASHP 2013), as quoted in teaching texts',
  clause: 'start within 60 minutes before incision; 120 for vancomycin and fluoroquinolones',
  status: 'secondary',
}

export const prophylaxisBloodLoss: Source = { ...prophylaxisTiming, clause: 'again after much loss of blood' }

export const noDoseAfterClosure: Source = {
  title: 'CDC Guideline for the Prevention of Surgical Site Infection',
  edition: '2017',
  clause: 'clean and clean-contaminated: no further dose after closure, even with a drain',
  status: 'secondary',
}

export const dirtyIsTreated: Source = {
  ...noDoseAfterClosure,
  title: 'Teaching texts on antimicrobial prophylaxis in surgery',
  clause: 'a dirty wound is treated, not prevented',
}

export const lowRiskGallBladder: Source = {
  title: 'Trials and meta-analyses of prophylaxis in elective low-risk laparoscopic cholecystectomy',
  clause: '206 patients: 4.5 against 4.2 %; 12 121 patients: relative risk 0.67 (0.51 to 0.88); they conflict',
  status: 'confirmed',
}

export const byProcedure: Source = {
  title: 'Prophylaxis by procedure, from memory',
  status: 'unverified',
}

export const idealWeight: Source = {
  ...prophylaxisDoses,
  clause:
    'gentamicin: ideal weight + 0.4 (actual − ideal) when more than 20 % above; ideal weight by Devine from memory',
  status: 'secondary',
}

export const highRiskGallBladder: Source = {
  title: 'Review of prophylaxis in laparoscopic cholecystectomy',
  edition: '2025',
  clause: 'older than 70, diabetes, longer than 120 min, acute cholecystitis, spill, jaundice, weak immunity',
  status: 'confirmed',
}

export const moreRiskGallBladder: Source = {
  title: 'Antimicrobial prophylaxis in surgery (ASHP 2013), from memory',
  clause: 'further risks in laparoscopic cholecystectomy',
  status: 'unverified',
}

export const allergyKnown: Source = {
  title: 'A known allergy of the patient',
  clause: 'what the patient is allergic to is kept away from them',
  status: 'commonPractice',
}

export const implantInUnclean: Source = {
  title: 'Implants in wounds that are not clean',
  clause:
    'a mesh is not joined to a contaminated procedure unless somebody decides so; common practice, no published source',
  status: 'commonPractice',
}

export const implantPractice: Source = {
  title: 'An implant is not placed after the date on its pack',
  clause: 'common practice, no published source',
  status: 'unverified',
}
