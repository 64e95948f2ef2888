import { useNow } from '../session/use-now.ts'
import { useTimes } from '../session/unit.ts'
import { spanText } from '../words/standing.ts'

/** How long ago, with the moment itself for whoever asks. */
export function Since({ at }: { readonly at: string }) {
  const now = useNow()
  const times = useTimes()
  return (
    <time dateTime={at} title={times.moment(at)}>
      {spanText(now - Date.parse(at))}
    </time>
  )
}
