import { Link } from 'react-router'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { paths } from '../../paths.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import type { Outcome } from './Decide.tsx'

interface Props {
  readonly name: string
  readonly round: SubjectId<'round'>
  readonly mayRelease: boolean
  readonly outcome: Outcome | null
  readonly why: string
  readonly onOutcome: (outcome: Outcome) => void
  readonly onWhy: (why: string) => void
}

export function PackDecision({ name, round, mayRelease, outcome, why, onOutcome, onWhy }: Props) {
  const w = words.machines
  return (
    <li>
      <div className="grow">
        <Link to={paths.oneRound(round)}>{name}</Link>
        <br />
        <span className="key small soft">{subjectKey(round)}</span>
      </div>
      <fieldset className="field">
        <legend className="unseen">{w.decide.decision(name)}</legend>
        <div className="choices">
          {optionsOf(w.outcomes).map(({ value, label }) => {
            const barred = value === 'released' && !mayRelease
            return (
              <label key={value} style={barred ? { textDecoration: 'line-through', borderStyle: 'dashed' } : {}}>
                <input
                  type="radio"
                  name={`decision ${round}`}
                  checked={outcome === value}
                  onChange={() => onOutcome(value)}
                />
                {label}
              </label>
            )
          })}
        </div>
      </fieldset>
      {(outcome === 'quarantined' || outcome === 'rejected') && (
        <input
          style={{ flex: '1 1 14rem', width: 'auto' }}
          aria-label={`${w.decide.why}: ${name}`}
          placeholder={w.decide.why}
          value={why}
          onChange={(event) => onWhy(event.target.value)}
        />
      )}
    </li>
  )
}
