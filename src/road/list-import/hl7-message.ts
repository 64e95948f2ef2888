/*
 * Messages of HL7 version 2 in their vertical-bar form: HL7 v2.5.1, chapter 2, 2.5 to 2.7 (segments, fields, components,
 * repetitions, encoding characters, escape sequences). The clauses are named from memory.
 */

export interface Hl7Message {
  readonly kind: 'message'
  /** The line of the file on which its MSH stands. */
  readonly line: number
  readonly segments: readonly Hl7Segment[]
}

export interface Hl7Broken {
  readonly kind: 'broken'
  readonly line: number
  readonly says: string
}

export interface Hl7Segment {
  readonly name: string
  readonly line: number
  /** The decoded text of a field, the first repetition and component unless said otherwise; '' where there is none. */
  at(field: number, component?: number, repetition?: number): string
  /** How often the field is repeated; 0 where it is absent. */
  repetitions(field: number): number
}

interface Encoding {
  readonly field: string
  readonly component: string
  readonly repetition: string
  readonly escape: string
  readonly sub: string
}

/** A segment of more than this is not read: no list has one, and a reader is to have a bound. */
const longestSegment = 65_536

/** All messages of a text: each begins with MSH. Batch and file headers (FHS, BHS, BTS, FTS) are passed over. */
export function hl7Messages(text: string): readonly (Hl7Message | Hl7Broken)[] {
  const found: (Hl7Message | Hl7Broken)[] = []
  let lines: { readonly text: string; readonly line: number }[] = []
  const end = (): void => {
    if (lines.length > 0) found.push(messageOf(lines))
    lines = []
  }
  // Segments end with a carriage return (2.5.1); files that went through an editor have line feeds.
  const all = text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/)
  for (const [place, raw] of all.entries()) {
    const line = place + 1
    // The frame of MLLP, where a capture of a line was saved as a file.
    // oxlint-disable-next-line no-control-regex -- VT and FS are that frame
    const segment = raw.replaceAll(/[\u000B\u001C]/g, '')
    if (segment.trim() === '' || /^(?:FHS|BHS|BTS|FTS)\W/.test(segment)) continue
    if (segment.startsWith('MSH')) end()
    if (segment.startsWith('MSH') || lines.length > 0) lines.push({ text: segment, line })
    else found.push({ kind: 'broken', line, says: 'wanted MSH at the beginning of a message' })
  }
  end()
  return found
}

function messageOf(lines: readonly { readonly text: string; readonly line: number }[]): Hl7Message | Hl7Broken {
  const [head] = lines
  const line = head?.line ?? 1
  const encoding = encodingOf(head?.text ?? '')
  if (typeof encoding === 'string') return { kind: 'broken', line, says: encoding }
  const segments: Hl7Segment[] = []
  for (const each of lines) {
    if (each.text.length > longestSegment)
      return { kind: 'broken', line: each.line, says: `wanted a segment of at most ${longestSegment} characters` }
    const name = each.text.slice(0, 3)
    if (!/^[A-Z][A-Z0-9]{2}$/.test(name) || (each.text.length > 3 && each.text.charAt(3) !== encoding.field))
      return { kind: 'broken', line: each.line, says: 'wanted three letters of a segment and the field separator' }
    segments.push(segmentOf(each.text, each.line, encoding))
  }
  return { kind: 'message', line, segments }
}

/** MSH-1 and MSH-2 say which characters separate (2.15.9.1 and 2.15.9.2). */
function encodingOf(head: string): Encoding | string {
  const field = head.charAt(3)
  const set = head.slice(4).split(field, 1)[0] ?? ''
  const [component = '', repetition = '', escape = '', sub = ''] = set
  const all = [field, component, repetition, escape, sub]
  // A fifth, the mark of truncation, came with version 2.7.
  const fits = (set.length === 4 || set.length === 5) && new Set(all).size === 5 && !all.some((c) => /[\w\s]/.test(c))
  if (field === '' || !fits) return 'MSH-1 and MSH-2: wanted five different separators such as |^~\\&'
  return { field, component, repetition, escape, sub }
}

function segmentOf(text: string, line: number, encoding: Encoding): Hl7Segment {
  const name = text.slice(0, 3)
  const cut = text.split(encoding.field)
  // In MSH the separator is itself the first field.
  const fields = name === 'MSH' ? ['MSH', encoding.field, ...cut.slice(1)] : cut
  const literal = (field: number): boolean => name === 'MSH' && field <= 2
  const repeated = (field: number): readonly string[] => {
    const raw = fields[field] ?? ''
    return raw === '' ? [] : raw.split(encoding.repetition)
  }
  return {
    name,
    line,
    repetitions: (field) => (literal(field) ? 1 : repeated(field).length),
    at(field, component = 1, repetition = 1) {
      if (literal(field)) return fields[field] ?? ''
      const raw = repeated(field)[repetition - 1]?.split(encoding.component)[component - 1] ?? ''
      // Two quotes say that a value is to be taken away (2.5.3): then there is none.
      if (raw === '""') return ''
      return unescaped(raw.split(encoding.sub)[0] ?? '', encoding).trim()
    },
  }
}

/** Escape sequences (2.7): separators, hexadecimal data and line breaks; what only dresses text up is left out. */
function unescaped(text: string, { field, component, repetition, escape, sub }: Encoding): string {
  const parts = text.split(escape)
  if (parts.length < 3) return text
  let out = parts[0] ?? ''
  for (let place = 1; place < parts.length; place += 1) {
    const code = parts[place] ?? ''
    // Every sequence has an end: the last piece stands outside when there is one for each beginning.
    if (place === parts.length - 1) return out + (place % 2 === 1 ? escape + code : code)
    if (place % 2 === 0) {
      out += code
      continue
    }
    if (code === 'F') out += field
    else if (code === 'S') out += component
    else if (code === 'R') out += repetition
    else if (code === 'E') out += escape
    else if (code === 'T') out += sub
    else if (/^X(?:[0-9A-F]{2})+$/i.test(code)) out += hexText(code.slice(1))
    else if (/^\.(?:br|sp|ce)/.test(code)) out += ' '
  }
  return out
}

function hexText(hex: string): string {
  const bytes = Uint8Array.from(hex.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16))
  return new TextDecoder().decode(bytes)
}
