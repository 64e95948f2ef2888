import type { RoundStanding } from '#road/round.ts'

export const stations = ['use', 'soak', 'wash', 'inspect', 'pack', 'sterilise', 'release', 'shelf', 'theatre'] as const
export type Station = (typeof stations)[number]

/** At which station of the ring a round stands. */
export const stationOf: Readonly<Record<RoundStanding, Station>> = {
  used: 'use',
  soaking: 'soak',
  washed: 'wash',
  sentBack: 'wash',
  inspected: 'inspect',
  inBath: 'sterilise',
  bathReady: 'release',
  sealed: 'pack',
  inLoad: 'sterilise',
  quarantined: 'release',
  rejected: 'release',
  damaged: 'release',
  released: 'release',
  onShelf: 'shelf',
  opened: 'theatre',
  over: 'use',
}

export const ringRadius = 275
export const beadRadius = 15
const nearest = ringRadius + 30
const furthest = 490
const longestHours = 24 * 30
const sector = (2 * Math.PI) / stations.length

export interface Point {
  readonly x: number
  readonly y: number
}

/** Clockwise from the top. */
export function at(angle: number, radius: number): Point {
  return { x: Math.sin(angle) * radius, y: -Math.cos(angle) * radius }
}

export function stationAngle(station: Station): number {
  return stations.indexOf(station) * sector
}

/** Waiting time as distance: a minute is at the ring, a month at the rim, with equal steps for equal ratios. */
export function waitRadius(hours: number): number {
  const share = Math.log1p(Math.max(0, hours) * 4) / Math.log1p(longestHours * 4)
  return nearest + Math.min(1, share) * (furthest - nearest)
}

/** Places beads at their distance, moved sideways and then outwards until none covers another. */
export function placeBeads<Bead extends { readonly station: Station; readonly hours: number }>(
  beads: readonly Bead[],
): (Bead & Point)[] {
  const placed: (Bead & Point)[] = []
  const free = (point: Point) =>
    placed.every((other) => Math.hypot(other.x - point.x, other.y - point.y) >= 2 * beadRadius + 4)
  for (const bead of beads.toSorted((a, b) => a.hours - b.hours)) {
    placed.push({ ...bead, ...firstFree(bead, free) })
  }
  return placed
}

function firstFree(
  bead: { readonly station: Station; readonly hours: number },
  free: (point: Point) => boolean,
): Point {
  const middle = stationAngle(bead.station)
  let point = at(middle, waitRadius(bead.hours))
  for (let radius = waitRadius(bead.hours); radius < furthest * 1.2; radius += 6) {
    const step = (2 * beadRadius + 5) / radius
    for (let turn = 0; turn * step < sector * 0.44; turn += 1) {
      for (const side of turn === 0 ? [0] : [1, -1]) {
        point = at(middle + side * turn * step, radius)
        if (free(point)) return point
      }
    }
  }
  return point
}
