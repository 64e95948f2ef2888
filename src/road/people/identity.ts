import { z } from 'zod'

/** Who a patient is: no part of any entry. At least one of the fields. */
export const PatientIdentity = z
  .strictObject({
    name: z.string().trim().min(1).max(120).optional(),
    /** As the hospital's own patient register numbers the patient. */
    hospitalNumber: z.string().trim().min(1).max(60).optional(),
    bornOn: z.iso.date().optional(),
    phone: z.string().trim().min(3).max(40).optional(),
  })
  .refine((identity) => Object.keys(identity).length > 0, 'a name, a number, a day of birth or a telephone')
export type PatientIdentity = z.infer<typeof PatientIdentity>

/** Why someone looks or changes: a closed list, so that nothing of a patient gets into the log. */
export const IdentityReason = z.enum(['care', 'followUp', 'recall', 'correction', 'patientAsked'])
export type IdentityReason = z.infer<typeof IdentityReason>
