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
