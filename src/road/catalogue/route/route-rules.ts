import type { RouteRule } from './route-rule.ts'
import { agent } from './rules/agent.ts'
import { classNeeds } from './rules/class-needs.ts'
import { contents } from './rules/contents.ts'
import { heat } from './rules/heat.ts'
import { implant } from './rules/implant.ts'
import { loadLimit } from './rules/load-limit.ts'
import { lumens } from './rules/lumens.ts'
import { makersLimits } from './rules/makers-limits.ts'
import { makersList } from './rules/makers-list.ts'
import { material } from './rules/material.ts'
import { moisture } from './rules/moisture.ts'
import { owned } from './rules/owned.ts'
import { partsInside } from './rules/parts-inside.ts'
import { prion } from './rules/prion.ts'
import { singleUse } from './rules/single-use.ts'
import { storage } from './rules/storage.ts'
import { vacuum } from './rules/vacuum.ts'

/** Why a method is open or closed to a device, in the order in which the questions are asked. */
export const routeRules: readonly RouteRule[] = Object.freeze([
  singleUse,
  prion,
  makersList,
  makersLimits,
  heat,
  moisture,
  vacuum,
  lumens,
  contents,
  material,
  partsInside,
  loadLimit,
  implant,
  classNeeds,
  storage,
  agent,
  owned,
])
