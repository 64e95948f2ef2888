import type { Limit } from '../policy.ts'
import { residueTable } from './sources.ts'

/* What a device may carry of ethylene oxide (EO) and its chlorohydrin (ECH), by how long it touches the patient. */

export const residueContacts = ['limited', 'prolonged', 'permanent'] as const
export type ResidueContact = (typeof residueContacts)[number]
export const residueSpans = ['firstDay', 'thirtyDays', 'lifetime'] as const
export type ResidueSpan = (typeof residueSpans)[number]
export const residueAgents = ['eo', 'ech'] as const
export type ResidueAgent = (typeof residueAgents)[number]

const agentNames: Readonly<Record<ResidueAgent, string>> = {
  eo: 'ethylene oxide',
  ech: 'ethylene chlorohydrin',
}
const spanNames: Readonly<Record<ResidueSpan, { readonly id: string; readonly name: string }>> = {
  firstDay: { id: 'first-day', name: 'first 24 h' },
  thirtyDays: { id: 'thirty-days', name: '30 days' },
  lifetime: { id: 'lifetime', name: 'a lifetime' },
}

function dose(agent: ResidueAgent, span: ResidueSpan, milligrams: number): Limit<number> {
  return {
    id: `residue-${agent}-${spanNames[span].id}-mg`,
    title: `Residue: most ${agentNames[agent]} over ${spanNames[span].name}`,
    unit: 'mg',
    value: milligrams,
    source: residueTable,
    // A unit may be stricter than the standard, never laxer.
    allowed: { from: 0.01, to: milligrams },
  }
}

export const residueDoses: Readonly<Record<ResidueAgent, Readonly<Record<ResidueSpan, Limit<number>>>>> = {
  eo: {
    firstDay: dose('eo', 'firstDay', 4),
    thirtyDays: dose('eo', 'thirtyDays', 60),
    lifetime: dose('eo', 'lifetime', 2500),
  },
  ech: {
    firstDay: dose('ech', 'firstDay', 9),
    thirtyDays: dose('ech', 'thirtyDays', 60),
    lifetime: dose('ech', 'lifetime', 10_000),
  },
}

/** Which spans a contact is held to: a longer contact keeps the shorter limits too. */
export const spansOf: Readonly<Record<ResidueContact, readonly ResidueSpan[]>> = {
  limited: ['firstDay'],
  prolonged: ['firstDay', 'thirtyDays'],
  permanent: ['firstDay', 'thirtyDays', 'lifetime'],
}

function surface(agent: ResidueAgent, microgramsPerCm2: number): Limit<number> {
  return {
    id: `residue-${agent}-surface`,
    title: `Residue: most ${agentNames[agent]} on the surface that touches`,
    unit: 'µg/cm²',
    value: microgramsPerCm2,
    source: residueTable,
    allowed: { from: 0.01, to: microgramsPerCm2 },
  }
}

export const residueSurface: Readonly<Record<ResidueAgent, Limit<number>>> = {
  eo: surface('eo', 10),
  ech: surface('ech', 5000),
}

export const residueLimits: readonly Limit<number>[] = [
  ...residueAgents.flatMap((agent) => residueSpans.map((span) => residueDoses[agent][span])),
  ...residueAgents.map((agent) => residueSurface[agent]),
]
