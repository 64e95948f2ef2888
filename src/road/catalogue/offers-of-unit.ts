import type { BathKnown } from '../baths/bath-fold.ts'
import { type BathProduct, bathProduct } from '../baths/products.ts'
import type { KnownOf } from '../known.ts'
import type { MachineType } from '../sterilising/method-of.ts'
import { isBath, type Method, methods } from './methods.ts'
import type { BathAgent, MethodOffer } from './route/ask.ts'

type Machine = Pick<KnownOf<'machine'>, 'type' | 'airRemoval' | 'lumenClaims'>
type Bath = Pick<BathKnown, 'product'>

/** The machine that runs a method; a bath needs none. */
const machineOf: Readonly<Record<Exclude<Method, 'bathSterilise' | 'bathDisinfect'>, MachineType>> = {
  steam: 'steamSteriliser',
  dryHeat: 'dryHeatSteriliser',
  ethyleneOxide: 'ethyleneOxideSteriliser',
  hydrogenPeroxide: 'hydrogenPeroxideSteriliser',
  formaldehyde: 'formaldehydeSteriliser',
  peraceticLiquid: 'peraceticProcessor',
}

/** Every method as this unit could use it: by its machines and its baths in use; the rest shown as not there. */
export function offersOfUnit(machines: readonly Machine[], baths: readonly Bath[] = []): MethodOffer[] {
  return methods.flatMap((method) => {
    const offers = isBath(method) ? bathOffers(method, baths) : machineOffers(method, machines)
    return offers.length > 0 ? offers : [{ method, owned: false }]
  })
}

function machineOffers(method: Method, machines: readonly Machine[]): MethodOffer[] {
  if (method === 'bathSterilise' || method === 'bathDisinfect') return []
  const own = machines.filter((machine) => machine.type === machineOf[method])
  if (own.length === 0) return []
  const steam = method === 'steam'
  const dynamic = own.some((machine) => machine.airRemoval === 'dynamic')
  const claims = own.flatMap((machine) => machine.lumenClaims ?? [])
  return [
    {
      method,
      owned: true,
      ...(steam ? { airRemoval: dynamic ? ('dynamic' as const) : ('gravity' as const) } : {}),
      ...(claims.length > 0 ? { claims } : {}),
    },
  ]
}

function bathOffers(method: Method, baths: readonly Bath[]): MethodOffer[] {
  const claim = method === 'bathSterilise' ? 'sterilise' : 'disinfect'
  const products = baths.flatMap(({ product }) => (product === null ? [] : (bathProduct(product) ?? [])))
  const able = products.filter((product) => Object.keys(product.contact).some((contact) => contact.startsWith(claim)))
  const agents = new Set(able.map((product) => agentOf[product.family]))
  return [...agents].map((agent) => ({ method, owned: true, agent }))
}

/** What a product is, as makers' lists of baths name it. */
export const agentOf: Readonly<Record<BathProduct['family'], BathAgent>> = {
  glutaraldehyde: 'glutaraldehyde',
  orthoPhthalaldehyde: 'orthoPhthalaldehyde',
  peroxygen: 'peroxideWithPeraceticAcid',
  chlorine: 'chlorine',
}
