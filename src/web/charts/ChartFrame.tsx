import { type ReactNode, useRef } from 'react'
import { words } from '../words/words.ts'
import { saveCsv, savePng, saveSvg } from './export.ts'
import './chart.css'

interface Props {
  readonly name: string
  readonly label: string
  readonly data: () => readonly (readonly (string | number | null)[])[]
  readonly children: ReactNode
}

/** A chart with what can be saved of it. */
export function ChartFrame({ name, label, data, children }: Props) {
  const figure = useRef<HTMLElement>(null)
  const svg = () => figure.current?.querySelector<SVGSVGElement>(':scope .drawing svg')
  return (
    <figure className="chart" ref={figure} aria-label={label}>
      {/* What can be pushed sideways is reached by the keyboard as well. */}
      {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex */}
      <div className="drawing scroll" tabIndex={0}>
        {children}
      </div>
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
