import type { KnownOf } from '#road/known.ts'
import { caseStanding } from '#road/operating/fold.ts'
import type { SubjectKind } from '#road/subject.ts'
import { columnsOf, tableOf } from './table.ts'

/* The tables of what goes round: sets, loads, baths, lots, operations. Patients stand there by their number alone. */

type Stands<Kind extends SubjectKind> = KnownOf<Kind> & { readonly stands: string }
type Each<List extends readonly unknown[]> = List[number]

const rounds = tableOf(
  { name: 'rounds', title: 'Rounds', rowIs: 'one trip of a set round the loop', periodBy: 'began_utc' },
  'round',
  (round, { standing }) => [{ ...round, stands: standing }],
  columnsOf<Stands<'round'>>()
    .text('round', ({ id }) => id)
    .text('set', ({ set }) => set)
    .text('standing', ({ stands }) => stands)
    .moment('began_utc', ({ began }) => began?.at)
    .text('because', ({ began }) => began?.because)
    .text('used_in_case', ({ began }) => began?.case)
    .moment('soaked_utc', ({ soak }) => soak?.at)
    .moment('washed_utc', ({ wash }) => wash?.at)
    .text('wash', ({ wash }) => wash?.id)
    .moment('inspected_utc', ({ inspection }) => inspection?.at)
    .moment('sealed_utc', ({ sealed }) => sealed?.at)
    .text('load', ({ load }) => load?.id)
    .text('immersion', ({ immersion }) => immersion?.id)
    .moment('decided_utc', ({ decision }) => decision?.at)
    .text('decision', ({ decision }) => decision?.outcome)
    .moment('stored_utc', ({ stored }) => stored?.at)
    .text('stored_in', ({ stored }) => stored?.place)
    .moment('opened_utc', ({ opened }) => opened?.at)
    .text('opened_for_case', ({ opened }) => opened?.case)
    .text('next_round', ({ next }) => next),
)

const loads = tableOf(
  { name: 'loads', title: 'Loads', rowIs: 'one load of a machine', periodBy: 'built_utc' },
  'load',
  (load, { standing }) => [{ ...load, stands: standing }],
  columnsOf<Stands<'load'>>()
    .text('load', ({ id }) => id)
    .text('machine', ({ machine }) => machine)
    .text('program', ({ program }) => program)
    .text('purpose', ({ purpose }) => purpose)
    .text('standing', ({ stands }) => stands)
    .moment('built_utc', ({ builtAt }) => builtAt)
    .number('packs', ({ rounds: packs }) => packs.length)
    .text('cycle_verdict', ({ cycle }) => cycle?.report.verdict)
    .moment('decided_utc', ({ decision }) => decision?.at)
    .text('decided_by', ({ decision }) => decision?.by),
)

const cycles = tableOf(
  { name: 'cycles', title: 'Cycles', rowIs: 'one logged cycle of a machine', periodBy: 'started_utc' },
  'load',
  ({ id, machine, cycle }) => (cycle === null ? [] : [{ ...cycle, ...cycle.report, load: id, machine }]),
  columnsOf<
    NonNullable<KnownOf<'load'>['cycle']> &
      NonNullable<KnownOf<'load'>['cycle']>['report'] & { readonly load: string; readonly machine: string | null }
  >()
    .text('load', ({ load }) => load)
    .text('machine', ({ machine }) => machine)
    .text('program', ({ program }) => program)
    .text('cycle_number', ({ cycleNumber }) => cycleNumber)
    .moment('started_utc', ({ startedAt }) => startedAt)
    .moment('ended_utc', ({ endedAt }) => endedAt)
    .text('verdict', ({ verdict }) => verdict)
    .number('holding_s', ({ holdingSeconds }) => holdingSeconds)
    .number('equilibration_s', ({ equilibrationSeconds }) => equilibrationSeconds)
    .number('lethality_min', ({ fMinutes }) => fMinutes)
    .number('lethality_reference_c', ({ fReferenceC }) => fReferenceC)
    .number('z_value_k', ({ zK }) => zK)
    .number('lowest_c', ({ minC }) => minC)
    .number('highest_c', ({ maxC }) => maxC)
    .number('largest_spread_k', ({ maxSpreadK }) => maxSpreadK)
    .text('log_sha256', ({ log }) => log),
)

interface Indicator {
  readonly load: string
  readonly kind: 'chemical' | 'biological'
  readonly at: Each<KnownOf<'load'>['chemical']>['at']
  readonly by: string
  readonly result: string
  readonly where?: string
  readonly type?: string
  readonly lot?: string
  readonly control?: string | undefined
  readonly hours?: number
}

const indicators = tableOf(
  { name: 'indicators', title: 'Indicators', rowIs: 'one reading of an indicator', periodBy: 'read_utc' },
  'load',
  ({ id, chemical, biological }): readonly Indicator[] => [
    ...chemical.map(({ at, by, result, where, type }) => ({
      load: id,
      kind: 'chemical' as const,
      at,
      by,
      result,
      where,
      type,
    })),
    ...biological.map(({ at, by, result, lot, control, incubatedHours }) => ({
      load: id,
      kind: 'biological' as const,
      at,
      by,
      result,
      lot,
      control: control?.result,
      hours: incubatedHours,
    })),
  ],
  columnsOf<Indicator>()
    .text('load', ({ load }) => load)
    .text('indicator', ({ kind }) => kind)
    .moment('read_utc', ({ at }) => at)
    .text('read_by', ({ by }) => by)
    .text('result', ({ result }) => result)
    .text('chemical_where', ({ where }) => where)
    .text('chemical_type', ({ type }) => type)
    .text('biological_lot', ({ lot }) => lot)
    .text('biological_control', ({ control }) => control)
    .number('incubated_h', ({ hours }) => hours),
)

const baths = tableOf(
  { name: 'baths', title: 'Baths', rowIs: 'one chemical bath', periodBy: 'activated_utc' },
  'bath',
  (bath, { standing }) => [{ ...bath, stands: standing }],
  columnsOf<Stands<'bath'>>()
    .text('bath', ({ id }) => id)
    .text('product', ({ product }) => product)
    .text('place', ({ place }) => place)
    .text('standing', ({ stands }) => stands)
    .number('volume_l', ({ litres }) => litres)
    .moment('activated_utc', ({ activatedAt }) => activatedAt)
    .moment('expires_utc', ({ expiresAt }) => expiresAt)
    .number('temperature_c', ({ temperature }) => temperature?.celsius)
    .moment('temperature_read_utc', ({ temperature }) => temperature?.at)
    .number('immersions', ({ uses }) => uses.length)
    .moment('retired_utc', ({ retired }) => retired?.at),
)

const immersions = tableOf(
  { name: 'immersions', title: 'Immersions', rowIs: 'one immersion in a bath', periodBy: 'started_utc' },
  'immersion',
  (immersion, { standing }) => [{ ...immersion, stands: standing }],
  columnsOf<Stands<'immersion'>>()
    .text('immersion', ({ id }) => id)
    .text('bath', ({ bath }) => bath)
    .text('standing', ({ stands }) => stands)
    .number('sets', ({ rounds: sets }) => sets.length)
    .text('claim', ({ started }) => started?.claim)
    .moment('started_utc', ({ started }) => started?.at)
    .moment('ended_utc', ({ ended }) => ended?.at)
    .number('rinses', ({ rinses }) => rinses.length)
    .text('decision', ({ decision }) => decision?.outcome)
    .moment('decided_utc', ({ decision }) => decision?.at),
)

const lots = tableOf(
  { name: 'lots', title: 'Lots', rowIs: 'one lot of what is used up', periodBy: 'opened_utc' },
  'lot',
  (lot, { standing }) => [{ ...lot, stands: standing }],
  columnsOf<Stands<'lot'>>()
    .text('lot', ({ id }) => id)
    .text('of', ({ of }) => of)
    .text('name', ({ name }) => name)
    .text('number', ({ number }) => number)
    .text('maker', ({ maker }) => maker)
    .text('standing', ({ stands }) => stands)
    .moment('made_utc', ({ madeAt }) => madeAt)
    .moment('opened_utc', ({ openedAt }) => openedAt)
    .moment('expires_utc', ({ expiresAt }) => expiresAt)
    .moment('discard_utc', ({ discardAt }) => discardAt)
    .moment('held_utc', ({ held }) => held?.at)
    .moment('withdrawn_utc', ({ withdrawn }) => withdrawn?.at),
)

const cases = tableOf(
  { name: 'cases', title: 'Cases', rowIs: 'one operation; the patient by number alone', periodBy: 'planned_utc' },
  'case',
  (each) => [each],
  columnsOf<KnownOf<'case'>>()
    .text('case', ({ id }) => id)
    .text('patient_number', ({ booked }) => booked?.patient)
    .text('procedure', ({ booked }) => booked?.procedure)
    .text('category', ({ booked }) => booked?.category)
    .text('theatre', ({ booked }) => booked?.theatre)
    .text('surgeon', ({ booked, recorded }) => recorded?.surgeon ?? booked?.surgeon)
    .text('standing', caseStanding)
    .moment('planned_utc', ({ booked }) => booked?.plannedAt)
    .moment('started_utc', ({ recorded }) => recorded?.startedAt)
    .moment('ended_utc', ({ recorded }) => recorded?.endedAt)
    .text('wound_class', ({ recorded }) => recorded?.woundClass)
    .number('asa_class', ({ recorded }) => recorded?.asa)
    .yesNo('implant', ({ recorded, booked }) =>
      recorded === null ? booked?.implantPlanned : recorded.implant !== null,
    )
    .number('packs_opened', ({ opened }) => opened.length)
    .number('wounds_noted', ({ wounds }) => wounds.length),
)

export const loopTables = [rounds, loads, cycles, indicators, baths, immersions, lots, cases] as const
