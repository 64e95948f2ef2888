import { soakAlarmMinutes, soakCautionMinutes } from '#road/cleaning/limits.ts'
import { usePolicy } from '../../components/use-policy.ts'
import { Why } from '../../components/Why.tsx'
import { useNow } from '../../session/use-now.ts'
import { spanText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'

interface Props {
  readonly since: string
  /** The entry of the last use, for whoever asks. */
  readonly entry?: string
}

/** The wait since the last use, large, with what is left of its limit. */
export function SoakWait({ since, entry }: Props) {
  const now = useNow(10)
  const policy = usePolicy()
  const waited = now - Date.parse(since)
  const caution = policy.limit(soakCautionMinutes).value * 60_000
  const alarm = policy.limit(soakAlarmMinutes).value * 60_000
  const w = words.wash.wait
  const says =
    waited <= caution
      ? w.left(spanText(caution - waited))
      : waited <= alarm
        ? w.over(spanText(waited - caution), spanText(alarm - waited))
        : w.alarm(spanText(waited - alarm))
  return (
    <p role="timer" aria-label={w.label}>
      <span style={{ fontSize: '2.5rem', fontVariantNumeric: 'tabular-nums', lineHeight: 1.1 }}>
        {entry === undefined ? (
          spanText(waited)
        ) : (
          <Why of={{ title: words.round.waiting, entry }}>{spanText(waited)}</Why>
        )}
      </span>{' '}
      {words.wash.sinceUse}
      <br />
      <strong>{says}</strong>
    </p>
  )
}
