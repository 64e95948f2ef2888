import { z } from 'zod'
import type { Instant } from '#road/instant.ts'
import type { CaseLine } from '#road/wounds/surveillance/line.ts'
import type { Compute } from '../compute/compute.ts'
import { type ClustersAnswer, clusterPlaces, type PlaceCluster, type TimeCluster } from './clusters-answer.ts'
import { daysBefore, readLines, type WoundReader } from './read-lines.ts'
import { readExposures } from './read-exposures.ts'

const replicates = 4999
const week = 7 * 86_400_000

const TimeOutput = z.object({ start: z.int(), end: z.int(), count: z.int(), p: z.number(), llr: z.number() })
const PlaceOutput = z.object({
  zone: z.string().nullable(),
  weekStart: z.int().nullable(),
  weekEnd: z.int().nullable(),
  c: z.int(),
  n: z.int(),
  p: z.number(),
})

/** Looks for the closest group of infections, in time over all operations and by theatre, steriliser and surgeon. */
export async function clustersFrom(
  reader: WoundReader,
  compute: Compute,
  now: Instant,
  days: number,
): Promise<ClustersAnswer> {
  const list = await readLines(reader, now, daysBefore(now, days))
  const { lines } = list
  const infected = lines.flatMap((line, index) => (line.infection === null ? [] : [index + 1]))
  const counts = { operations: lines.length, infections: infected.length }
  if (infected.length < 2 || infected.length === lines.length) return { ...counts, inTime: null, inPlace: [] }
  const inTime = await timeCluster(compute, lines, infected)
  const { lines: exposed } = await readExposures(reader, list, lines)
  const sterilisers = exposed.map(({ exposures }) =>
    exposures.filter(({ type }) => type === 'steriliser').map(({ id }) => id),
  )
  const placesOf: Readonly<Record<(typeof clusterPlaces)[number], readonly (readonly string[])[]>> = {
    theatre: lines.map(({ theatre }) => (theatre === null ? [] : [theatre])),
    steriliser: sterilisers,
    surgeon: lines.map(({ surgeon }) => [surgeon]),
  }
  const inPlace = await Promise.all(
    clusterPlaces.map(async (by) => await placeCluster(compute, lines, by, placesOf[by])),
  )
  return { ...counts, inTime, inPlace: inPlace.flatMap((found) => found ?? []) }
}

async function timeCluster(
  compute: Compute,
  lines: readonly CaseLine[],
  infectedPositions: readonly number[],
): Promise<TimeCluster | null> {
  const input = { N: lines.length, infectedPositions: [...infectedPositions], replicates }
  const answer = await compute.run({ kind: 'work', working: 'temporal-scan-bernoulli-mc', input })
  if (answer.kind !== 'output') return null
  const { start, end, count, p, llr } = TimeOutput.parse(answer.output)
  const [first, last] = [lines[start - 1], lines[end - 1]]
  if (llr === 0 || first === undefined || last === undefined) return null
  return { from: first.day, to: last.day, infections: count, operations: end - start + 1, p }
}

/** Counts by place and week; a case that met two sterilisers counts for both. */
async function placeCluster(
  compute: Compute,
  lines: readonly CaseLine[],
  by: (typeof clusterPlaces)[number],
  placesOf: readonly (readonly string[])[],
): Promise<PlaceCluster | null> {
  const places = [...new Set(placesOf.flat())].sort().slice(0, 50)
  const first = Date.parse(lines[0]?.day ?? '')
  const weekOf = (line: CaseLine): number => Math.floor((Date.parse(line.day) - first) / week)
  const weeks = lines.reduce((most, line) => Math.max(most, weekOf(line) + 1), 1)
  if (places.length < 2) return null
  const grid = (only: (line: CaseLine) => boolean): number[][] =>
    places.map((place) => {
      const row = Array.from({ length: weeks }, () => 0)
      for (const [index, line] of lines.entries())
        if (only(line) && placesOf[index]?.includes(place) === true) row[weekOf(line)] = (row[weekOf(line)] ?? 0) + 1
      return row
    })
  const input = {
    procedures: grid(() => true),
    infections: grid((line) => line.infection !== null),
    zones: 'each alone',
    replicates,
  }
  const answer = await compute.run({ kind: 'work', working: 'space-time-scan-bernoulli-mc', input })
  if (answer.kind !== 'output') return null
  const { zone, weekStart, weekEnd, c, n, p } = PlaceOutput.parse(answer.output)
  if (zone === null || weekStart === null || weekEnd === null) return null
  const dayOf = (number: number, plus: number): string =>
    new Date(first + number * week + plus * 86_400_000).toISOString().slice(0, 10)
  const place = places[Number(zone) - 1] ?? null
  return { by, place, from: dayOf(weekStart - 1, 0), to: dayOf(weekEnd - 1, 6), infections: c, operations: n, p }
}
