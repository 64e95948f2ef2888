import { type ReactNode, useLayoutEffect, useRef } from 'react'
import { words } from '../words/words.ts'
import { saveCsv, savePng, saveSvg } from './export.ts'
import './chart.css'

interface Props {
  readonly name: string
  readonly label: string
  /** The newest is at its right end, which is shown first where there is no room for all of it. */
  readonly newestRight?: boolean
  readonly data: () => readonly (readonly (string | number | null)[])[]
  readonly children: ReactNode
  /** What is said of it: below, and never pushed sideways with it. */
  readonly notes?: ReactNode
}

/** A chart with what can be saved of it. */
export function ChartFrame({ name, label, newestRight = false, data, children, notes }: Props) {
  const figure = useRef<HTMLElement>(null)
  const drawing = useRef<HTMLDivElement>(null)
  useLayoutEffect(() => {
    if (newestRight && drawing.current !== null) drawing.current.scrollLeft = drawing.current.scrollWidth
  }, [newestRight])
  const svg = () => figure.current?.querySelector<SVGSVGElement>(':scope .drawing svg')
  return (
    <figure className="chart" ref={figure} aria-label={label}>
      {/* What can be pushed sideways is reached by the keyboard as well. */}
      {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex */}
      <div className="drawing scroll" tabIndex={0} ref={drawing}>
        {children}
      </div>
      {notes}
      {newestRight && <p className="small only-narrow">{words.chart.sideways}</p>}
      <figcaption className="row no-print">
        <button type="button" className="quiet" onClick={() => withSvg(svg(), (found) => saveSvg(found, name))}>
          {words.chart.svg}
        </button>
        <button type="button" className="quiet" onClick={() => withSvg(svg(), (found) => void savePng(found, name))}>
          {words.chart.png}
        </button>
        <button type="button" className="quiet" onClick={() => saveCsv(data(), name)}>
          {words.chart.csv}
        </button>
      </figcaption>
    </figure>
  )
}

function withSvg(svg: SVGSVGElement | null | undefined, use: (svg: SVGSVGElement) => void): void {
  if (svg !== null && svg !== undefined) use(svg)
}
