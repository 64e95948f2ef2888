import { useQuery } from '@tanstack/react-query'
import type { Instant } from '#road/instant.ts'
import type { Bodies } from '#road/kinds.ts'
import { setTypesOf } from '#road/planning/set-types.ts'
import { knownQuery } from '../../api/queries.ts'
import { SelectField, TextField } from '../../components/Fields.tsx'
import type { Times } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

type ForPlan = NonNullable<Bodies['case-booked']['forPlan']>
type YesNo = 'yes' | 'no' | ''

/** As it stands in the fields; empty is not known. */
export interface PlanAnswers {
  readonly earliest: string
  readonly latest: string
  readonly theatres: string
  readonly minutes: string
  readonly woundClass: NonNullable<ForPlan['woundClass']> | ''
  readonly infectiousRisk: YesNo
  readonly child: YesNo
  readonly sets: Readonly<Record<string, string>>
}

export function planAnswersOf(of: ForPlan | undefined, times: Times): PlanAnswers {
  return {
    earliest: of?.earliest === undefined ? '' : times.toInput(of.earliest),
    latest: of?.latest === undefined ? '' : times.toInput(of.latest),
    theatres: of?.theatres?.join(', ') ?? '',
    minutes: of?.minutes === undefined ? '' : String(of.minutes),
    woundClass: of?.woundClass ?? '',
    infectiousRisk: yesNoOf(of?.infectiousRisk),
    child: yesNoOf(of?.child),
    sets: Object.fromEntries(Object.entries(of?.sets ?? {}).map(([name, count]) => [name, String(count)])),
  }
}

/** Undefined while nothing is answered. */
export function forPlanOf(answers: PlanAnswers, times: Times): ForPlan | undefined {
  const { minutes, woundClass } = answers
  const [earliest, latest] = [answers.earliest, answers.latest].map(times.fromInput)
  const theatres = answers.theatres.split(',').flatMap((name) => (name.trim() === '' ? [] : [name.trim()]))
  const sets = Object.entries(answers.sets).flatMap(([name, count]) =>
    Number(count) > 0 ? [[name, Number(count)] as const] : [],
  )
  const made: ForPlan = {
    ...(earliest === undefined ? {} : { earliest: earliest as Instant }),
    ...(latest === undefined ? {} : { latest: latest as Instant }),
    ...(theatres.length === 0 ? {} : { theatres }),
    ...(minutes === '' ? {} : { minutes: Number(minutes) }),
    ...(woundClass === '' ? {} : { woundClass }),
    ...(answers.infectiousRisk === '' ? {} : { infectiousRisk: answers.infectiousRisk === 'yes' }),
    ...(answers.child === '' ? {} : { child: answers.child === 'yes' }),
    ...(sets.length === 0 ? {} : { sets: Object.fromEntries(sets) }),
  }
  return Object.keys(made).length === 0 ? undefined : made
}

function yesNoOf(answer: boolean | undefined): YesNo {
  return answer === undefined ? '' : answer ? 'yes' : 'no'
}

interface Props {
  readonly value: PlanAnswers
  readonly onChange: (value: PlanAnswers) => void
}

/** What the list of the day has to go by, as far as it is known. */
export function PlanFields({ value, onChange }: Props) {
  const w = words.theatre.forPlan
  const change = (next: Partial<PlanAnswers>) => onChange({ ...value, ...next })
  const shared = { optional: true } as const
  const yesNo = { ...shared, empty: w.notKnown, options: optionsOf(w.yesNo) }
  return (
    <div className="stack">
      <p className="soft">{w.lead}</p>
      <div className="pair">
        <TextField
          {...shared}
          label={w.earliest}
          type="datetime-local"
          value={value.earliest}
          onChange={(earliest) => change({ earliest })}
        />
        <TextField
          {...shared}
          label={w.latest}
          type="datetime-local"
          value={value.latest}
          onChange={(latest) => change({ latest })}
        />
        <TextField
          {...shared}
          label={w.minutes}
          hint={w.minutesHint}
          type="number"
          min={1}
          max={1440}
          step={1}
          value={value.minutes}
          onChange={(minutes) => change({ minutes })}
        />
        <TextField
          {...shared}
          label={w.theatres}
          hint={w.theatresHint}
          value={value.theatres}
          onChange={(theatres) => change({ theatres })}
        />
        <SelectField
          {...shared}
          label={w.woundClass}
          empty={w.notKnown}
          value={value.woundClass}
          options={optionsOf(words.theatre.woundClasses)}
          onChange={(woundClass) => change({ woundClass })}
        />
        <SelectField
          {...yesNo}
          label={w.infectiousRisk}
          value={value.infectiousRisk}
          onChange={(infectiousRisk) => change({ infectiousRisk })}
        />
        <SelectField {...yesNo} label={w.child} value={value.child} onChange={(child) => change({ child })} />
      </div>
      <SetCounts value={value.sets} onChange={(sets) => change({ sets })} />
    </div>
  )
}

interface SetCountsProps {
  readonly value: PlanAnswers['sets']
  readonly onChange: (value: PlanAnswers['sets']) => void
}

/** How many of each type of set; a type that is named and that the unit does not have any more stays in sight. */
function SetCounts({ value, onChange }: SetCountsProps) {
  const sets = useQuery(knownQuery('set')).data ?? []
  const own = setTypesOf(sets.map(({ state }) => state)).map(({ name }) => name)
  const names = [...new Set([...own, ...Object.keys(value)])]
  const w = words.theatre.forPlan
  if (names.length === 0) return null
  return (
    <fieldset className="field">
      <legend>{w.sets}</legend>
      <div className="stack">
        <p className="soft small">{w.setsHint}</p>
        <div className="pair">
          {names.map((name) => (
            <TextField
              key={name}
              label={w.setsOf(name)}
              optional
              type="number"
              min={0}
              max={20}
              step={1}
              value={value[name] ?? ''}
              onChange={(count) => onChange({ ...value, [name]: count })}
            />
          ))}
        </div>
      </div>
    </fieldset>
  )
}
