import { useState } from 'react'
import { Link } from 'react-router'
import type { SubjectId } from '#road/subject.ts'
import { paths } from '../paths.ts'
import { words } from '../words/words.ts'
import {
  at,
  beadRadius,
  placeBeads,
  ringRadius,
  type Station,
  stationAngle,
  stations,
  waitRadius,
} from './ring-layout.ts'
import './ring.css'

export type BeadMark = 'on' | 'late' | 'blocked' | 'expiring'

export interface Bead {
  readonly round: SubjectId<'round'>
  readonly name: string
  readonly says: string
  readonly wait: string
  readonly station: Station
  readonly hours: number
  readonly mark: BeadMark
}

const guides = [
  { hours: 1, label: '1 h' },
  { hours: 24, label: '1 d' },
  { hours: 168, label: '7 d' },
]

/** The loop as one ring. A bead is a set: its station says where, its distance how long, its shape how it is. */
export function Ring({ beads }: { readonly beads: readonly Bead[] }) {
  const [shown, setShown] = useState<Bead | null>(null)
  return (
    <figure className="ring-figure" aria-label={words.round.ringLabel}>
      <svg className="ring" viewBox="-515 -505 1030 1010">
        {guides.map(({ hours, label }) => (
          <g key={hours} className="guide" aria-hidden="true">
            <circle r={waitRadius(hours)} />
            <text {...at(stationAngle('soak') / 2, waitRadius(hours))} dy="0.35em">
              {label}
            </text>
          </g>
        ))}
        <circle className="band" r={ringRadius} />
        {stations.map((station) => (
          <StationMark
            key={station}
            station={station}
            count={beads.filter((bead) => bead.station === station).length}
          />
        ))}
        <Centre beads={beads} shown={shown} />
        {placeBeads(beads).map((bead) => (
          <Link
            key={bead.round}
            to={paths.oneRound(bead.round)}
            className={`bead ${bead.mark}`}
            aria-label={words.round.beadLabel(bead.name, bead.says, bead.wait)}
            onMouseEnter={() => setShown(bead)}
            onMouseLeave={() => setShown(null)}
            onFocus={() => setShown(bead)}
            onBlur={() => setShown(null)}
          >
            <circle className="reach" cx={bead.x} cy={bead.y} r={beadRadius + 3} />
            <BeadShape mark={bead.mark} x={bead.x} y={bead.y} />
          </Link>
        ))}
      </svg>
    </figure>
  )
}

export function BeadShape({ mark, x, y }: { readonly mark: BeadMark; readonly x: number; readonly y: number }) {
  const r = beadRadius
  switch (mark) {
    case 'on':
      return <circle cx={x} cy={y} r={r - 2} />
    case 'late':
      return <path d={`M${x} ${y - r - 3}l${r + 3} ${r + 3}l${-r - 3} ${r + 3}l${-r - 3} ${-r - 3}Z`} />
    case 'blocked':
      return <rect x={x - r} y={y - r} width={2 * r} height={2 * r} />
    case 'expiring':
      return <circle cx={x} cy={y} r={r - 3} className="hollow" />
  }
}

function StationMark({ station, count }: { readonly station: Station; readonly count: number }) {
  const angle = stationAngle(station)
  const dot = at(angle, ringRadius)
  const label = at(angle, ringRadius - 72)
  const turn = at(angle + Math.PI / stations.length, ringRadius)
  const degrees = ((angle + Math.PI / stations.length) * 180) / Math.PI
  return (
    <g className="station" aria-hidden="true">
      <circle cx={dot.x} cy={dot.y} r="9" />
      <path className="way" transform={`translate(${turn.x} ${turn.y}) rotate(${degrees})`} d="M-7 -8L5 0L-7 8" />
      <text x={label.x} y={label.y}>
        {words.round.stations[station]}
      </text>
      <text x={label.x} y={label.y + 30} className="count">
        {count === 0 ? '–' : count}
      </text>
    </g>
  )
}

function Centre({ beads, shown }: { readonly beads: readonly Bead[]; readonly shown: Bead | null }) {
  const lines =
    shown === null ? [words.round.sets(beads.length), words.round.onTheWay] : [shown.name, shown.says, shown.wait]
  return (
    <g className="centre" aria-hidden="true">
      {lines.map((line, index) => (
        <text key={line} y={(index - (lines.length - 1) / 2) * 34} className={index === 0 ? 'first' : ''}>
          {line}
        </text>
      ))}
    </g>
  )
}
