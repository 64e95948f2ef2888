import { csvText } from '#units/csv-text.ts'

/** Saves what is drawn as a file of its own: colours of the theme are written out, since a file has none. */
export function svgText(svg: SVGSVGElement): string {
  const style = getComputedStyle(document.documentElement)
  const copy = svg.cloneNode(true)
  if (!(copy instanceof SVGSVGElement)) return ''
  const box = svg.getBoundingClientRect()
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg')
  copy.setAttribute('width', String(Math.round(box.width)))
  copy.setAttribute('height', String(Math.round(box.height)))
  copy.style.fontFamily = 'sans-serif'
  copy.style.color = style.getPropertyValue('--ink')
  copy.style.background = style.getPropertyValue('--sheet')
  const text = new XMLSerializer().serializeToString(copy)
  return text.replaceAll(/var\((--[a-z-]+)\)/g, (_, name: string) => style.getPropertyValue(name).trim())
}

export function saveSvg(svg: SVGSVGElement, name: string): void {
  save(new Blob([svgText(svg)], { type: 'image/svg+xml' }), `${name}.svg`)
}

/** Twice the size of the screen, so that it can be printed. */
export async function savePng(svg: SVGSVGElement, name: string): Promise<void> {
  const url = URL.createObjectURL(new Blob([svgText(svg)], { type: 'image/svg+xml' }))
  const image = new Image()
  image.src = url
  await image.decode()
  const canvas = document.createElement('canvas')
  canvas.width = image.width * 2
  canvas.height = image.height * 2
  canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height)
  URL.revokeObjectURL(url)
  canvas.toBlob((blob) => blob !== null && save(blob, `${name}.png`))
}

export function saveCsv(rows: readonly (readonly (string | number | null)[])[], name: string): void {
  save(new Blob([csvText(rows)], { type: 'text/csv' }), `${name}.csv`)
}

function save(blob: Blob, name: string): void {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(blob)
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 1000)
}
