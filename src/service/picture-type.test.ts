import assert from 'node:assert/strict'
import { test } from 'node:test'
import { pictureType } from './picture-type.ts'

/* First bytes as the standards named beside the working have them; from memory. */

const latin = (text: string): Uint8Array => Buffer.from(text, 'latin1')
const rows: readonly (readonly [string, Uint8Array, string | undefined])[] = [
  ['PNG', latin('\u0089PNG\r\n\u001A\n\0\0\0\rIHDR'), 'image/png'],
  ['PNG whose line ends a transfer has changed', latin('\u0089PNG\n\u001A\n\0\0\0\rIHDR'), undefined],
  ['JPEG', latin('\u00FF\u00D8\u00FF\u00E0\0\u0010JFIF'), 'image/jpeg'],
  ['GIF', latin('GIF89a\u0001\0'), 'image/gif'],
  ['WebP', latin('RIFF\u0024\0\0\0WEBPVP8 '), 'image/webp'],
  ['sound in the same container', latin('RIFF\u0024\0\0\0WAVEfmt '), undefined],
  ['HEIC', latin('\0\0\0\u0018ftypheic'), 'image/heic'],
  ['AVIF', latin('\0\0\0\u001Cftypavif'), 'image/avif'],
  ['film in the same container', latin('\0\0\0\u0018ftypisom'), undefined],
  ['text', latin('<svg/>'), undefined],
  ['nothing', latin(''), undefined],
]
for (const [name, bytes, type] of rows) test(`pictureType: ${name}`, () => assert.equal(pictureType(bytes), type))
