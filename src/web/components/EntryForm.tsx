import { type FormEvent, type ReactNode, useState } from 'react'
import type { EntryId, SentEntry } from '#road/entry.ts'
import type { Bodies, KindName } from '#road/kinds.ts'
import { type Finding, stands } from '#road/finding.ts'
import { isUnheard } from '../api/client.ts'
import { connectionStore } from '../offline/connection.ts'
import { useNotNow, WithoutNetwork } from '../offline/WithoutNetwork.tsx'
import { type Outcome, useEntry } from '../session/use-entry.ts'
import { useStore } from '../session/use-store.ts'
import { useMayRecord } from '../sign-in/me.ts'
import { words } from '../words/words.ts'
import { ExceptionField } from './ExceptionField.tsx'
import { Findings } from './Findings.tsx'
import { MomentField } from './MomentField.tsx'
import { NotJudged } from './NotJudged.tsx'
import { Progress } from './Progress.tsx'
import { type Judgement, useJudgement } from './use-judgement.ts'
import { WhoNeeded } from './WhoNeeded.tsx'

/** Told when an entry is kept: by the service, or on this screen until it can be sent. */
export type OnKept = (outcome: Outcome) => void

interface Props<Kind extends KindName> {
  readonly kind: Kind
  /** Null while something is missing. */
  readonly body: Bodies[Kind] | null
  readonly action: string
  /** What tells this form from others of its kind on a page; the action when not given. */
  readonly label?: string
  /** Asks the rules while the form is filled in; a decision that they stand against cannot be sent. */
  readonly judged?: boolean
  /** Named in words when the form cannot be sent yet for a reason of its own. */
  readonly lacking?: string | undefined
  readonly onKept?: OnKept
  /** The entry that this one corrects or withdraws. */
  readonly corrects?: EntryId
  /** When it happened, where that is known: as with an entry that is corrected. */
  readonly at?: string | undefined
  /** Told when another time is given, for a form whose body counts from that time; undefined stands for now. */
  readonly onMoment?: (happenedAt: string | undefined) => void
  readonly children?: ReactNode
}

/** A form that makes one entry. */
export function EntryForm<Kind extends KindName>(props: Props<Kind>) {
  const {
    kind,
    body,
    action,
    label = action,
    judged = false,
    lacking,
    onKept,
    corrects,
    at,
    onMoment,
    children,
  } = props
  const entry = useEntry(kind)
  const may = useMayRecord(kind)
  const notNow = useNotNow(kind)
  const [happenedAt, setHappenedAt] = useState(at)
  const [incomplete, setIncomplete] = useState(false)
  const [exception, setException] = useState<SentEntry['exception']>()
  const extras = {
    ...(happenedAt === undefined ? {} : { happenedAt }),
    ...(exception === undefined ? {} : { exception }),
    ...(corrects === undefined ? {} : { corrects }),
  }
  const draft = body === null ? null : entry.draft(body, extras)
  const { at: stage } = entry.progress
  // What was just kept is not asked about again: it may have made the very subject that its rules want new.
  const isAsked = judged && stage !== 'kept' && stage !== 'sending'
  const judgement = useJudgement(draft, isAsked, happenedAt)
  const against = judgement.data?.refused === true
  const submit = async (event: FormEvent) => {
    event.preventDefault()
    setIncomplete(body === null)
    if (body === null || against) return
    const outcome = await entry.send(body, extras)
    if (outcome !== null) {
      setException(undefined)
      onKept?.(outcome)
    }
  }
  return (
    <form className="form" onSubmit={(event) => void submit(event)} aria-label={label}>
      {children}
      <MomentField
        value={happenedAt}
        onChange={(moment) => {
          setHappenedAt(moment)
          onMoment?.(moment)
        }}
      />
      <WithoutNetwork kind={kind} judged={judged} />
      {judged && draft !== null && <Judged judgement={judgement} />}
      {/* What was refused when it was sent is told below. */}
      {isAsked && draft !== null && stage !== 'refused' && <NotJudged judgement={judgement} />}
      {judged && (against || exception !== undefined) && (
        <ExceptionField
          rules={(judgement.data?.findings ?? []).filter(stands).map((finding) => finding.rule)}
          onChange={setException}
        />
      )}
      <WhoNeeded />
      {!may && <p className="soft">{words.signIn.mayNot}</p>}
      {lacking !== undefined && <p className="soft">{words.form.because(lacking)}</p>}
      <div>
        <button
          type="submit"
          className="main large"
          disabled={entry.progress.at === 'sending' || against || entry.by === null || !may || notNow !== null}
        >
          {entry.progress.at === 'sending' ? words.form.sending : action}
        </button>
      </div>
      {incomplete && body === null && <p role="alert">{words.form.incomplete}</p>}
      <Progress progress={entry.progress} />
    </form>
  )
}

/** What is said when no finding stands against it: a caution is not nothing. */
function nothingBars(findings: readonly Finding[]): string {
  const cautions = findings.filter(({ weight }) => weight === 'caution').length
  if (cautions > 0) return words.form.nothingBarsBut(cautions)
  return findings.length > 0 ? words.form.nothingBars : words.form.nothingAgainst
}

function Judged({ judgement }: { readonly judgement: Judgement }) {
  const isOld = useStore(connectionStore) !== 'answering' || isUnheard(judgement.error)
  // What the rules said a while ago is no pass now; what they had against it then still bars it.
  if (isOld && !(judgement.data?.findings ?? []).some(stands)) return null
  if (judgement.data === undefined) {
    return judgement.error ? null : <p className="soft">{words.form.judging}</p>
  }
  const { refused, findings } = judgement.data
  return (
    <div className="stack" aria-live="polite">
      <p>
        <strong>
          {refused ? words.form.refused : findings.some(stands) ? words.form.alarmed : nothingBars(findings)}
        </strong>
      </p>
      {findings.length > 0 && <Findings findings={findings} />}
    </div>
  )
}
