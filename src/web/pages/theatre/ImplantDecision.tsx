import type { Bodies } from '#road/kinds.ts'
import type { Finding } from '#road/finding.ts'
import { implantNeedsDecision, usualClass } from '#road/operating/implant-needs-decision.ts'
import { implantDecisionFrom } from '#road/operating/limits.ts'
import type { Procedure } from '#road/operating/procedures.ts'
import { implantOnlyDecided } from '#road/operating/rules/implant-only-decided.ts'
import { ChoiceField, TextField } from '../../components/Fields.tsx'
import { useLimit } from '../../components/use-limit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

export interface Decision {
  readonly outcome: Bodies['implant-decided']['outcome'] | null
  readonly why: string
}

export const undecided: Decision = { outcome: null, why: '' }

/** The decision as its entry has it; null while something of it is missing. */
export function decisionBody({ outcome, why }: Decision): Pick<Bodies['implant-decided'], 'outcome' | 'why'> | null {
  return outcome === null || why.length < 5 ? null : { outcome, why }
}

/** What stands against this implant, by the rule that judges the booking; nothing when it needs no decision. */
export function useImplantFinding(category: Procedure | undefined, implant: boolean): Finding | undefined {
  const limit = useLimit(implantDecisionFrom.id)
  if (limit === undefined) return undefined
  const from = { value: String(limit.value), source: limit.source }
  const found = implantNeedsDecision({ implant, woundClass: usualClass(category), when: 'planned' }, from)
  return found === null ? undefined : { rule: implantOnlyDecided.id, ...found }
}

interface Props {
  readonly value: Decision
  readonly onChange: (value: Decision) => void
  readonly optional?: boolean
}

export function DecisionFields({ value, onChange, optional = false }: Props) {
  const w = words.theatre.guard
  return (
    <>
      <p className="soft">{w.decideSays}</p>
      <ChoiceField
        label={w.decision}
        optional={optional}
        value={value.outcome}
        options={optionsOf(w.outcomes)}
        onChange={(outcome) => onChange({ ...value, outcome })}
      />
      <TextField
        label={w.why}
        long
        optional={optional}
        value={value.why}
        minLength={5}
        onChange={(why) => onChange({ ...value, why })}
      />
    </>
  )
}
