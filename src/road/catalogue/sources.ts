import type { Source } from '#units/source.ts'

/* Where the facts of the catalogue, the routes and the step card come from. */

const cdc2008 = 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities'

export const contactClasses: Source = { title: cdc2008, edition: '2008', clause: 'Table 1', status: 'confirmed' }

export const intendedUse: Source = {
  title: 'Contact class by intended use, not by name',
  clause: 'an endoscope passed into a sterile cavity is critical',
  status: 'unverified',
}

export const laparoscopes: Source = {
  title: cdc2008,
  edition: '2008',
  clause: 'laparoscopes and arthroscopes',
  status: 'confirmed',
}

export const methodsCompared: Source = { title: cdc2008, edition: '2008', clause: 'Table 6', status: 'confirmed' }

export const chemicalsCompared: Source = { title: cdc2008, edition: '2008', clause: 'Table 5', status: 'confirmed' }

export const steamPreferred: Source = {
  title: cdc2008,
  edition: '2008',
  clause: 'Tables 1 and 6: steam where heat and moisture are borne',
  status: 'confirmed',
}

export const steamTimes: Source = { title: cdc2008, edition: '2008', clause: 'Table 7', status: 'confirmed' }

export const gasTimes: Source = {
  title: cdc2008,
  edition: '2008',
  clause: 'Table 1: exposure 1 to 6 h, aeration 8 to 12 h at 50 to 60 °C',
  status: 'confirmed',
}

export const residues: Source = {
  title: 'Desorption of ethylene oxide from plastics, Biomed Eng',
  edition: '1983',
  clause: 'PVC takes up most, polyethylene least',
  status: 'confirmed',
}

export const peroxideTimes: Source = {
  title: 'Rutala and Weber, Infect Dis Clin N Am',
  edition: '2016;30:609',
  clause: 'cycle 28 to 55 min, no aeration',
  status: 'confirmed',
}

export const ozoneFigures: Source = {
  title: 'Ozone sterilisation, as met in overviews',
  clause: 'about 4.5 h; 30 to 35 °C, 85 mg/L and moisture from memory',
  status: 'unverified',
}

export const peroxideOzoneFigures: Source = {
  title: 'Rutala and Weber, Infect Dis Clin N Am',
  edition: '2016;30:609',
  clause: 'hydrogen peroxide with ozone: cycle 46 min; no windows',
  status: 'confirmed',
}

export const otherTimes: Source = {
  title: 'Process times of formaldehyde steam and dry heat, as cited in reviews',
  status: 'secondary',
}

export const bathTimes: Source = {
  title: 'Rutala and Weber, Infect Dis Clin N Am',
  edition: '2016;30:609',
  clause: 'Table 1: contact times of liquid chemicals',
  status: 'confirmed',
}

export const liquidPeracetic: Source = { title: cdc2008, edition: '2008', clause: 'Table 4', status: 'confirmed' }

export const methodTable: Source = {
  title: 'Which method suits which device, general table',
  edition: 'from memory',
  clause: 'the instructions of the maker decide',
  status: 'unverified',
}

export const makersWord: Source = {
  title: 'Instructions of the instrument maker',
  clause: 'they decide over the general rule',
  status: 'proposal',
}

export const unitOwns: Source = { title: 'What this unit owns', clause: 'its machines and baths', status: 'proposal' }

export const lumenClaims: Source = {
  title: 'Public intended-use statements of hydrogen peroxide sterilisers',
  clause: 'claims by inner diameter, length, material and channels',
  status: 'confirmed',
}

export const noTrade: Source = {
  title: 'A claim is a pair',
  clause: 'diameter is never traded for length; follows from the public claims',
  status: 'proposal',
}

export const hollowLoads: Source = {
  title: 'EN 13060 and EN 867-5, from memory',
  clause: 'hollow loads in steam by length over diameter',
  status: 'unverified',
}

export const singleUse: Source = {
  title: 'WHO guidance on single-use devices; Regulation (EU) 2017/745, article 17',
  clause: 'not used again unless national law and a licensed route allow it',
  status: 'secondary',
}

export const prionRule: Source = {
  title: cdc2008,
  edition: '2008, as quoted in copies',
  clause: 'high-risk patient, high-risk tissue, critical or semi-critical device',
  status: 'secondary',
}

export const prionTissues: Source = {
  title: 'Tissues by infectivity, from memory of WHO and advisory tables',
  status: 'unverified',
}

export const prionQuarantine: Source = {
  title: 'WHO 1999 and SHEA 2010, from memory',
  clause: 'instruments wait for the diagnosis',
  status: 'unverified',
}

export const prionBarred: Source = {
  title: 'Methods that do not reach prions, from memory',
  clause: 'no immediate use, aldehydes, ethylene oxide or dry heat',
  status: 'unverified',
}

export const mycobacteria: Source = {
  title: 'Lorena et al., outbreak strain of Mycobacterium massiliense',
  clause: 'tolerant of 2 % glutaraldehyde',
  status: 'confirmed',
}

export const bladderCancer: Source = {
  title: 'Miner 2012; J Allergy Clin Immunol 2004',
  clause: 'anaphylaxis after cystoscopy; contraindicated for urological instruments',
  status: 'confirmed',
}

export const implantsSterile: Source = {
  title: 'Implants are sterilised, kept until the biological result, never bathed',
  edition: 'from memory',
  status: 'unverified',
}

export const immediateUse: Source = {
  title: 'ANSI/AAMI ST79, AORN and the statement of societies of 2011, from memory',
  clause: 'immediate-use steam',
  status: 'unverified',
}

export const immediateUseImplant: Source = {
  title: 'Policy of a teaching hospital on immediate use, and a trade journal',
  clause: 'implants only in a documented emergency, with a type 5 indicator and a biological one',
  status: 'secondary',
}

export const loanGuidance: Source = {
  title: 'Guidance on loan sets, as quoted in training pages',
  clause: '48 h for a known set, 72 h for a new one; decontaminated on arrival and before return',
  status: 'secondary',
}

export const lifeLimit: Source = {
  title: 'Life stated by the maker, in uses or cycles',
  clause: 'counted for each item',
  status: 'proposal',
}

export const formaldehydeTablets: Source = {
  title: 'Cupboards with formaldehyde tablets',
  edition: 'from memory',
  clause: 'no controlled strength, humidity, temperature or time; no indicator proves it',
  status: 'unverified',
}
