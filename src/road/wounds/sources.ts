import type { Source } from '#units/source.ts'

/* Where the rules of late infections of port sites come from. */

export const portOnset: Source = {
  title: 'Reviews of mycobacterial infection of port sites (Int J Mycobacteriol 9:231 and later series)',
  edition: '2020 and 2024',
  clause: 'onset after 3 to 4 weeks, typically 1 to 3 months, median 39 days; pus 70 %; ordinary cultures stay sterile',
  status: 'confirmed',
}

export const strainInGlutaraldehyde: Source = {
  title: 'Reports of an epidemic strain of Mycobacterium massiliense',
  clause: 'survives glutaraldehyde up to 7 %; killed by ortho-phthalaldehyde and peracetic acid',
  status: 'confirmed',
}

export const rinseWaterOutbreak: Source = {
  title: 'A hospital outbreak of Mycobacterium chelonae at port sites, J Hosp Infect',
  edition: '2006',
  clause: '145 port sites in 35 patients; rinse water after chemical disinfection',
  status: 'confirmed',
}

export const portRules: Source = {
  title: 'Late infections of port sites',
  clause: 'what makes a cluster, and what changes',
  status: 'proposal',
}

export const caseDefinitionTable: Source = {
  title: 'Definition of surgical site infection as printed in Trials 18:410, Table 1, and a guideline of pharmacists',
  edition: '2017',
  clause: 'superficial and deep incisional criteria; a stitch abscess does not count; the deeper level is reported',
  status: 'confirmed',
}

export const judgementReason: Source = {
  title: 'Judging a wound',
  clause: 'a judgement without any criterion ticked says why',
  status: 'proposal',
}

export const investigationDays: Source = {
  title: 'Days that an investigation covers',
  clause: 'fixed when it is opened, the year before unless said otherwise; changed only with a reason',
  status: 'proposal',
}

export const organSpaceRecalled: Source = {
  title: 'Definition of surgical site infection, organ or space',
  clause: 'criteria of the organ or space, from memory',
  status: 'unverified',
}

export const surveillanceWindows: Source = {
  title: 'Surveillance of surgical site infection, windows of 30 and 90 days',
  clause: 'day 1 is the day of the operation; which procedures have 90 days is from memory',
  status: 'unverified',
}

export const lateMycobacteria: Source = {
  title: 'Joint infections with mycobacteria (PMC6478192) and series of port sites',
  clause: '6 of 9 were found after day 90; port sites typically 1 to 3 months',
  status: 'confirmed',
}

export const followUpPlan: Source = {
  title: 'When patients are called',
  clause: 'a call early, one when the window ends, one for slow organisms',
  status: 'proposal',
}

export const chartDesign: Source = {
  title:
    'Bernoulli cumulative sum charts (Reynolds and Stoumbos) and risk-adjusted ones (Steiner, Cook, Farewell, Treasure)',
  edition: '1999 and 2000',
  clause: 'weights by the likelihood ratio of two rates; limit from the run length without a rise',
  status: 'confirmed',
}

export const eventsPerFactor: Source = {
  title: 'Infections for each factor of a logistic model',
  clause: 'common practice, no published source',
  status: 'commonPractice',
}

export const longOperation: Source = {
  title: 'Outbreak after laparoscopy, case and control, Infect Control Hosp Epidemiol 36:81',
  edition: '2015',
  clause: 'longer than 1 h: odds ratio 2.4 (1.2 to 4.5)',
  status: 'confirmed',
}

export const laparoscopeScheme: Source = {
  title: 'Gaynes 2001, basic risk index and laparoscope',
  clause:
    'gall bladder and colon one less, appendix and stomach split in category 0; later national reports leave it out (from memory)',
  status: 'confirmed',
}

export const ownPercentile: Source = {
  title: 'Risk index of an operation: a point for a duration above the 75th percentile of its kind',
  clause: 'own percentile, interpolated (type 7), from 20 operations on',
  status: 'proposal',
}

export const cutPointsRecalled: Source = {
  title: 'National report on surgical site infections 2006 to 2008 (Am J Infect Control 37:783)',
  edition: '2009',
  clause: 'cut points of duration, from memory; check your local standard',
  status: 'unverified',
}

export const noCutPoint: Source = {
  title: 'No cut point of duration is given for this operation',
  clause: 'enter that of your national report',
  status: 'proposal',
}
