import { z } from 'zod'
import { methods } from './methods.ts'
import { unofferedMethods } from './unoffered-methods.ts'

/*
 * What a device is made of and what it bears. All of it may be left out: what is left out is not stated, and what is
 * not stated is never a yes.
 */

export const materials = [
  'stainlessSteel',
  'titanium',
  'aluminium',
  'brass',
  'copper',
  'zinc',
  'platedNickelOrSilver',
  'lead',
  'glass',
  'ceramic',
  'polyamide',
  'pvc',
  'polyurethane',
  'silicone',
  'naturalRubber',
  'polyethylene',
  'ptfe',
  'peek',
  'polypropylene',
] as const
export type Material = (typeof materials)[number]

export const contacts = ['critical', 'semiCritical', 'nonCritical'] as const
export type Contact = (typeof contacts)[number]

/** Where an end of the device goes in use; this decides the contact class. */
export const sites = ['sterileTissue', 'bloodstream', 'mucosa', 'brokenSkin', 'intactSkin'] as const
export type Site = (typeof sites)[number]

export const domains = ['laparoscopy', 'urology', 'gynaecology', 'gastroenterology', 'general'] as const

export const Lumen = z.strictObject({
  diameterMm: z.number().positive(),
  lengthMm: z.number().positive(),
  openEnds: z.union([z.literal(1), z.literal(2)]).optional(),
  material: z.enum(materials).optional(),
  /** How many such channels run side by side; one when not said. */
  channels: z.int().min(1).max(12).optional(),
  /** A flexible channel, as of a flexible endoscope. */
  flexible: z.boolean().optional(),
})
export type Lumen = z.infer<typeof Lumen>

/** One line of the maker's allow-list. */
export const MakerMethod = z.strictObject({
  method: z.enum(methods),
  /** The programmes that the maker names, when only these are allowed. */
  programs: z.array(z.string().min(1).max(60)).min(1).optional(),
  maxTemperatureC: z.number().min(0).max(300).optional(),
  maxCycles: z.int().positive().optional(),
  /** The maker allows immediate use by this method. */
  immediateUse: z.boolean().optional(),
})
export type MakerMethod = z.infer<typeof MakerMethod>

export const attributeShape = {
  /** The maker's allow-list. When it is given, the older `steam` is not looked at. An empty list allows nothing. */
  makerMethods: z.array(MakerMethod).max(20).optional(),
  /** What the maker lists and this program has no programme for: kept, and answered by why it is barred. */
  makerOtherMethods: z.array(z.enum(unofferedMethods)).max(unofferedMethods.length).optional(),
  heatStable134: z.boolean().optional(),
  moistureStable: z.boolean().optional(),
  vacuumStable: z.boolean().optional(),
  immersible: z.boolean().optional(),
  /** Can be cleaned so that nothing is left; false for what can be neither opened nor flushed. */
  cleanable: z.boolean().optional(),
  hasCellulose: z.boolean().optional(),
  hasLinen: z.boolean().optional(),
  hasLiquidOrOil: z.boolean().optional(),
  hasPowder: z.boolean().optional(),
  closedAirSpace: z.boolean().optional(),
  materials: z.array(z.enum(materials)).max(20).optional(),
  battery: z.boolean().optional(),
  electronics: z.boolean().optional(),
  powerTool: z.boolean().optional(),
  implant: z.boolean().optional(),
  loaner: z.boolean().optional(),
  /** The licence or contract under which a device for one use may be reprocessed. */
  licensedRoute: z.string().min(1).max(200).optional(),
  /** The parts by name, in the order of taking apart. */
  partNames: z.array(z.string().min(1).max(60)).max(20).optional(),
  massKg: z.number().positive().max(50).optional(),
  domain: z.enum(domains).optional(),
  /** Where this device is meant to go, when it is meant for more than one place. */
  uses: z
    .array(z.strictObject({ use: z.string().min(1).max(80), site: z.enum(sites) }))
    .max(10)
    .optional(),
  /** Hand-washing only: a washer is barred by the maker. */
  washerAllowed: z.boolean().optional(),
  ultrasoundAllowed: z.boolean().optional(),
} as const

/** The class of contact that a place of use asks for. */
export function contactOf(site: Site): Contact {
  switch (site) {
    case 'sterileTissue':
    case 'bloodstream':
      return 'critical'
    case 'mucosa':
    case 'brokenSkin':
      return 'semiCritical'
    case 'intactSkin':
      return 'nonCritical'
  }
}
