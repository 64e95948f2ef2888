import type { AttachmentDigest } from '#road/attachment.ts'
import { words } from '../words/words.ts'
import './photos.css'

/** The photos that an entry names, small; each opens whole. */
export function Photos({ of }: { readonly of: readonly AttachmentDigest[] | undefined }) {
  if (of === undefined || of.length === 0) return null
  return (
    <ul className="plain photos" aria-label={words.safety.photos.list}>
      {of.map((digest, index) => (
        <li key={digest}>
          <a href={`/api/attachments/${digest}`} download>
            <img src={`/api/attachments/${digest}`} alt={words.safety.photos.one(index + 1)} loading="lazy" />
          </a>
        </li>
      ))}
    </ul>
  )
}
