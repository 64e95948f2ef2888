import type { Allergen, PatientFacts } from '#road/operating/patient-facts.ts'

const prion: Record<PatientFacts['prion'], string> = {
  noSuspicion: 'No suspicion',
  suspected: 'Suspected',
  sporadic: 'Sporadic',
  inherited: 'Inherited',
  variant: 'Variant',
  atRisk: 'At risk of variant',
  notKnown: 'Not known',
}
const tissue: Record<PatientFacts['tissue'], string> = {
  high: 'High: brain, cord, back of the eye',
  medium: 'Medium: appendix, spleen, lymphoid tissue',
  low: 'Low: liver, kidney, lung, placenta',
  none: 'None found: gut, fat, muscle, skin',
  notStated: 'Not stated',
}
const mycobacteria: Record<PatientFacts['mycobacteria'], string> = {
  no: 'No',
  suspected: 'Suspected',
  infection: 'Infection',
  notKnown: 'Not known',
}
const yesNo: Record<PatientFacts['bladderCancer'], string> = { yes: 'Yes', no: 'No', notKnown: 'Not known' }
const allergens: Record<Allergen, string> = {
  latex: 'Latex',
  glutaraldehyde: 'Glutaraldehyde',
  orthoPhthalaldehyde: 'Ortho-phthalaldehyde',
  peroxygen: 'Hydrogen peroxide, peracetic acid',
  chlorine: 'Chlorine',
  ethyleneOxide: 'Ethylene oxide',
  formaldehyde: 'Formaldehyde',
}

export const patientWords = {
  prion,
  tissue,
  mycobacteria,
  yesNo,
  allergens,
  title: 'Infections and allergies that matter for the instruments',
  lead: 'Prion disease, mycobacteria, bladder cancer and allergies decide how the instruments are treated. What is noted goes with the sets of this case to the soak, the wash, the bath and the load. “Not known” is an answer.',
  notNoted: 'Nothing has been noted of this patient yet.',
  prionIs: 'Prion disease',
  tissueIs: 'Tissue touched, by infectivity',
  mycobacteriaIs: 'Mycobacteria',
  cancerIs: 'Has had bladder cancer',
  asked: 'Asked about allergies',
  allergicTo: 'Allergic to',
  notAsked: 'Not asked',
  noAllergy: 'None known',
  note: 'Note these facts',
  again: 'Note them anew',
  atBooking: 'Note the patient’s infections and allergies now',
  fromPatient: 'The patient that this set comes from',
}
