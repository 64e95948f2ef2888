import { problemsOf } from '#units/problem.ts'
import { csvCells } from '../csv-cells.ts'
import type { Bodies } from '../kinds.ts'
import { deviceRegistered } from './entries.ts'

/** One row that cannot be used: its number as a spreadsheet counts, and what is wrong, in words. */
export interface BadRow {
  readonly row: number
  readonly says: string
}

export interface CatalogueCsv {
  readonly devices: readonly { readonly row: number; readonly body: Bodies['device-registered'] }[]
  readonly bad: readonly BadRow[]
}

type Reader = (text: string) => unknown

const yesNo: Reader = (text) => ({ yes: true, no: false })[text.toLowerCase()] ?? text
const count: Reader = (text) => (Number.isFinite(Number(text)) ? Number(text) : text)
const list: Reader = (text) =>
  text
    .split(';')
    .map((each) => each.trim())
    .filter((each) => each !== '')
/** `2.8x330` or `2.8x330x2` for open ends; several after each other with `;`. */
const lumens: Reader = (text) =>
  text
    .split(';')
    .filter((each) => each.trim() !== '')
    .map((each) => {
      const [diameterMm, lengthMm, openEnds] = each
        .trim()
        .toLowerCase()
        .split(/\s*[x×]\s*/)
        .map(count)
      return { diameterMm, lengthMm, ...(openEnds === undefined ? {} : { openEnds }) }
    })
const makerMethods: Reader = (text) => (text === 'none' ? [] : text.split(';').map((each) => ({ method: each.trim() })))
const plainText: Reader = (text) => text

/** Every column of a catalogue file, with how its cells are written. Only `key` and `name` and `contact` are needed. */
export const catalogueColumns: Readonly<Record<string, { readonly says: string; readonly read: Reader }>> = {
  key: { says: 'the key on labels: letters, digits, dashes', read: (text) => `device:${text}` },
  name: { says: 'its name', read: plainText },
  contact: { says: 'critical, semiCritical or nonCritical', read: plainText },
  steam: { says: 'allowed, barred or noInstructionsOnFile', read: plainText },
  makerMethods: { says: 'what the maker lists, with ";" between; none for an empty list', read: makerMethods },
  makerOtherMethods: {
    says: 'what the maker lists and no unit can run here: ozone or peroxideWithOzone, with ";" between',
    read: list,
  },
  lumens: { says: 'diameter x length in mm, x open ends: 2.8x330x2, with ";" between', read: lumens },
  parts: { says: 'number of parts', read: count },
  partNames: { says: 'names of the parts, with ";" between', read: list },
  materials: { says: 'materials, with ";" between', read: list },
  insulated: { says: 'yes or no', read: yesNo },
  optic: { says: 'yes or no', read: yesNo },
  singleUse: { says: 'yes or no', read: yesNo },
  licensedRoute: { says: 'licence to reprocess a single-use device', read: plainText },
  lifeInUses: { says: 'life in uses', read: count },
  massKg: { says: 'mass, kg', read: count },
  domain: { says: 'laparoscopy, urology, gynaecology, gastroenterology or general', read: plainText },
  ...Object.fromEntries(
    [
      'heatStable134',
      'moistureStable',
      'vacuumStable',
      'immersible',
      'cleanable',
      'hasCellulose',
      'hasLinen',
      'hasLiquidOrOil',
      'hasPowder',
      'closedAirSpace',
      'battery',
      'electronics',
      'powerTool',
      'implant',
      'loaner',
      'ultrasoundAllowed',
      'washerAllowed',
    ].map((name) => [name, { says: 'yes, no, or empty for not stated', read: yesNo }]),
  ),
}

const defaults = {
  steam: 'noInstructionsOnFile',
  lumens: [],
  parts: 1,
  insulated: false,
  optic: false,
  singleUse: false,
}

/** Reads a catalogue from comma-separated text. An empty cell is not stated; every bad row is named. */
export function readCatalogueCsv(text: string): CatalogueCsv {
  const rows = csvCells(text)
  const [head, ...rest] = rows
  const names = (head?.cells ?? []).map((cell) => cell.trim())
  const strange = names.filter((name) => !(name in catalogueColumns))
  const missing = ['key', 'name', 'contact'].filter((name) => !names.includes(name))
  if (strange.length > 0 || missing.length > 0) {
    const says = [
      ...strange.map((name) => `column ${JSON.stringify(name)} is not known`),
      ...missing.map((name) => `column "${name}" is missing`),
    ].join('; ')
    return { devices: [], bad: [{ row: head?.row ?? 1, says }] }
  }
  const devices: CatalogueCsv['devices'][number][] = []
  const bad: BadRow[] = []
  const seen = new Map<string, number>()
  for (const { row, cells } of rest) {
    if (cells.every((cell) => cell.trim() === '')) continue
    const found = bodyOf(names, cells)
    if (typeof found === 'string') {
      bad.push({ row, says: found })
      continue
    }
    const before = seen.get(found.device)
    if (before === undefined) devices.push({ row, body: found })
    else bad.push({ row, says: `key: wanted one of its own, ${JSON.stringify(found.device)} is in row ${before}` })
    seen.set(found.device, row)
  }
  return { devices, bad }
}

function bodyOf(names: readonly string[], cells: readonly string[]): Bodies['device-registered'] | string {
  if (cells.length > names.length) return `wanted ${names.length} cells, current number is ${cells.length}`
  const raw: Record<string, unknown> = { ...defaults }
  for (const [place, name] of names.entries()) {
    const cell = (cells[place] ?? '').trim()
    const column = catalogueColumns[name]
    if (cell === '' || column === undefined) continue
    raw[name === 'key' ? 'device' : name] = column.read(cell)
  }
  const parsed = deviceRegistered.body.safeParse(raw)
  if (parsed.success) return parsed.data
  return problemsOf(parsed.error, raw)
    .map(
      ({ field, wanted, current }) =>
        `${field === 'device' ? 'key' : field}: wanted ${wanted}, current value is ${current}`,
    )
    .join('; ')
}
