/*
 * By their first bytes: PNG (ISO/IEC 15948, 5.2), JPEG (ITU-T T.81, B.1.1.3), GIF (version 89a, 17), WebP (RFC 9649, 2.4),
 * HEIC and AVIF (ISO/IEC 14496-12, 4.3). Clauses from memory. A drawing of text, such as SVG, may carry a script and is no photo.
 */
const brands: Readonly<Record<string, string>> = {
  heic: 'image/heic',
  heix: 'image/heic',
  mif1: 'image/heic',
  avif: 'image/avif',
  avis: 'image/avif',
}

export const picturesWanted = 'a picture: PNG, JPEG, GIF, WebP, HEIC or AVIF'

/** The media type of a picture, as its first bytes tell it; undefined when they are of none that is taken. */
export function pictureType(bytes: Uint8Array): string | undefined {
  const text = Buffer.from(bytes.subarray(0, 12)).toString('latin1')
  if (text.startsWith('\u0089PNG\r\n\u001A\n')) return 'image/png'
  if (text.startsWith('\u00FF\u00D8\u00FF')) return 'image/jpeg'
  if (/^GIF8[79]a/.test(text)) return 'image/gif'
  if (/^RIFF[\s\S]{4}WEBP/.test(text)) return 'image/webp'
  return text.slice(4, 8) === 'ftyp' ? brands[text.slice(8, 12)] : undefined
}
