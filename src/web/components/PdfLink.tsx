import { subjectKey } from '#road/subject.ts'
import { useStore } from '../session/use-store.ts'
import { whoStore } from '../session/who.ts'

interface Props {
  readonly path: string
  readonly more?: Readonly<Record<string, string>>
  readonly children: string
}

/** Opens a page for paper; it is made by the service, with the name of who works at this screen. */
export function PdfLink({ path, more = {}, children }: Props) {
  const who = useStore(whoStore)
  const query = new URLSearchParams(who === null ? more : { ...more, by: subjectKey(who) }).toString()
  return (
    <a className="button no-print" href={query === '' ? path : `${path}?${query}`} target="_blank" rel="noreferrer">
      {children}
    </a>
  )
}
