import { z } from 'zod'
import { contacts, sites } from '../attributes.ts'
import type { DeviceKnown } from '../fold.ts'
import { methods } from '../methods.ts'
import { LumenClaim } from './claims.ts'

/** What a route looks at of a device: what is registered, whoever registered it. */
export type RouteDevice = Omit<DeviceKnown, 'id'>

export const bathAgents = [
  'glutaraldehyde',
  'orthoPhthalaldehyde',
  'hydrogenPeroxide',
  'peraceticAcid',
  'peroxideWithPeraceticAcid',
  'chlorine',
] as const
export type BathAgent = (typeof bathAgents)[number]

/** One method that the unit could use, with what its machine or its bath can do. */
export const MethodOffer = z.strictObject({
  method: z.enum(methods),
  /** False: shown, so that people see what buying it would open, but never preferred. */
  owned: z.boolean(),
  /** The highest temperature of the process here, when it is known. */
  temperatureC: z.number().optional(),
  program: z.string().min(1).max(60).optional(),
  holdMinutes: z.number().positive().optional(),
  airRemoval: z.enum(['dynamic', 'gravity']).optional(),
  /** Lumen claims in force for this machine; absent when nobody has entered them. */
  claims: z.array(LumenClaim).optional(),
  maxLoadKg: z.number().positive().optional(),
  agent: z.enum(bathAgents).optional(),
})
export type MethodOffer = z.infer<typeof MethodOffer>

export const PrionFacts = z.strictObject({
  patient: z.enum(['noSuspicion', 'suspected', 'sporadic', 'inherited', 'variant', 'atRisk']),
  tissue: z.enum(['high', 'medium', 'low', 'none', 'notStated']),
})
export type PrionFacts = z.infer<typeof PrionFacts>

/** What is asked besides the device: for whom, with what in the load, and under which policy. */
export const RouteAsk = z.strictObject({
  /** Where the device goes this time; decides the contact class when given. */
  site: z.enum(sites).optional(),
  contact: z.enum(contacts).optional(),
  /** One of the uses that the device is registered for, by its name. */
  use: z.string().min(1).max(80).optional(),
  /** Whether it is to lie on a shelf as sterile; a device that is used at once need not. */
  toStore: z.boolean(),
  prion: PrionFacts.optional(),
  mycobacteriaOutbreak: z.boolean().optional(),
  bladderCancer: z.boolean().optional(),
  load: z
    .strictObject({
      lumens: z.int().nonnegative(),
      massKg: z.number().positive().optional(),
      otherDevices: z.boolean(),
    })
    .optional(),
  cyclesDone: z.int().nonnegative().optional(),
  hldForLaparoscope: z.boolean(),
  offers: z.array(MethodOffer).max(40),
})
export type RouteAsk = z.infer<typeof RouteAsk>
