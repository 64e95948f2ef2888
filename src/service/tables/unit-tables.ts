import type { Finding } from '#road/finding.ts'
import type { KeptEntry } from '#road/entry.ts'
import type { KnownOf } from '#road/known.ts'
import type { SubjectKind } from '#road/subject.ts'
import type { Reader } from '#journal/journal.ts'
import { columnsOf, type Made, type Table, tableOf } from './table.ts'

/* The tables of wounds, of what the unit owns, and of the record itself. */

type Stands<Kind extends SubjectKind> = KnownOf<Kind> & {
  readonly stands: string
  readonly since: KeptEntry['happenedAt']
}

const wounds = tableOf(
  { name: 'wounds', title: 'Wounds', rowIs: 'one wound that was noted', periodBy: 'onset_utc' },
  'wound',
  (wound, { standing, since }) => [{ ...wound, stands: standing, since }],
  columnsOf<Stands<'wound'>>()
    .text('wound', ({ id }) => id)
    .text('case', ({ noted }) => noted?.case)
    .text('standing', ({ stands }) => stands)
    .moment('noted_utc', ({ noted }) => noted?.at)
    .moment('onset_utc', ({ noted }) => noted?.onsetAt)
    .text('depth', ({ judged, noted }) => judged?.depth ?? noted?.depth)
    .text('culture', ({ cultures, noted }) => cultures.at(-1)?.culture ?? noted?.culture)
    .text('organism', ({ cultures, noted }) => cultures.at(-1)?.organism ?? noted?.organism)
    .moment('judged_utc', ({ judged }) => judged?.at)
    .text('criteria', ({ judged }) => judged?.criteria.join('; ')),
)

const followUps = tableOf(
  { name: 'follow-ups', title: 'Follow-ups', rowIs: 'one attempt to hear of a wound', periodBy: 'made_utc' },
  'case',
  ({ id, followUps: made }) => made.map((each) => ({ ...each, case: id })),
  columnsOf<KnownOf<'case'>['followUps'][number] & { readonly case: string }>()
    .text('case', (row) => row.case)
    .moment('made_utc', ({ at }) => at)
    .text('made_by', ({ by }) => by)
    .text('means', ({ means }) => means)
    .text('reached', ({ reached }) => reached)
    .text('wound', ({ wound }) => wound)
    .text('signs', ({ signs }) => signs.join('; '))
    .text('alive', ({ alive }) => alive),
)

const devices = tableOf(
  { name: 'devices', title: 'Devices', rowIs: 'one type of instrument', periodBy: 'since_utc' },
  'device',
  (device, { standing, since }) => [{ ...device, stands: standing, since }],
  columnsOf<Stands<'device'>>()
    .text('device', ({ id }) => id)
    .text('name', ({ name }) => name)
    .text('contact', ({ contact }) => contact)
    .text('steam', ({ steam }) => steam)
    .number('parts', ({ parts }) => parts)
    .number('lumens', ({ lumens }) => lumens.length)
    .yesNo('insulated', ({ insulated }) => insulated)
    .yesNo('optic', ({ optic }) => optic)
    .yesNo('single_use', ({ singleUse }) => singleUse)
    .moment('since_utc', ({ since }) => since),
)

const items = tableOf(
  { name: 'items', title: 'Items', rowIs: 'one instrument', periodBy: 'since_utc' },
  'item',
  (item, { standing, since }) => [{ ...item, stands: standing, since }],
  columnsOf<Stands<'item'>>()
    .text('item', ({ id }) => id)
    .text('device', ({ device }) => device)
    .text('serial', ({ serial }) => serial)
    .text('standing', ({ stands }) => stands)
    .moment('since_utc', ({ since }) => since)
    .number('repairs', ({ repairs }) => repairs.length)
    .text('insulation_last', ({ insulation }) => insulation.at(-1)?.result)
    .moment('insulation_tested_utc', ({ insulation }) => insulation.at(-1)?.at)
    .moment('retired_utc', ({ retired }) => retired?.at),
)

const sets = tableOf(
  { name: 'sets', title: 'Sets', rowIs: 'one set of instruments', periodBy: 'since_utc' },
  'set',
  (set, { standing, since }) => [{ ...set, stands: standing, since }],
  columnsOf<Stands<'set'>>()
    .text('set', ({ id }) => id)
    .text('name', ({ name }) => name)
    .text('standing', ({ stands }) => stands)
    .moment('since_utc', ({ since }) => since)
    .number('count_sheet_lines', ({ countSheet }) => countSheet.length)
    .number('rounds', ({ rounds }) => rounds)
    .text('lent_by', ({ loan }) => loan?.lender),
)

const machines = tableOf(
  { name: 'machines', title: 'Machines', rowIs: 'one machine', periodBy: 'since_utc' },
  'machine',
  (machine, { standing, since }) => [{ ...machine, stands: standing, since }],
  columnsOf<Stands<'machine'>>()
    .text('machine', ({ id }) => id)
    .text('name', ({ name }) => name)
    .text('type', ({ type }) => type)
    .number('chamber_l', ({ chamberLitres }) => chamberLitres)
    .text('standing', ({ stands }) => stands)
    .moment('since_utc', ({ since }) => since)
    .moment('calibrated_utc', ({ calibration }) => calibration?.at)
    .moment('serviced_utc', ({ serviced }) => serviced?.at),
)

const people = tableOf(
  { name: 'people', title: 'People', rowIs: 'one person of the unit', periodBy: 'since_utc' },
  'person',
  (person, { standing, since }) => [{ ...person, stands: standing, since }],
  columnsOf<Stands<'person'>>()
    .text('person', ({ id }) => id)
    .text('name', ({ name }) => name)
    .text('roles', ({ roles }) => roles.join('; '))
    .text('standing', ({ stands }) => stands)
    .moment('since_utc', ({ since }) => since),
)

const recalls = tableOf(
  { name: 'recalls', title: 'Recalls', rowIs: 'one recall', periodBy: 'opened_utc' },
  'recall',
  (recall, { standing, since }) => [{ ...recall, stands: standing, since }],
  columnsOf<Stands<'recall'>>()
    .text('recall', ({ id }) => id)
    .text('of', ({ load, bath, lot }) => load ?? bath ?? lot)
    .text('standing', ({ stands }) => stands)
    .moment('opened_utc', ({ opened }) => opened?.at)
    .text('why', ({ opened }) => opened?.why)
    .number('packs_accounted', ({ accounted }) => Object.keys(accounted).length)
    .moment('closed_utc', ({ closed }) => closed?.at),
)

/** A table of the chain itself: a row, or several, of each entry. */
function entryTable<Row>(
  about: Pick<Table, 'name' | 'title' | 'rowIs' | 'periodBy'>,
  rowsOf: (entry: KeptEntry) => readonly Row[],
  made: Made<Row>,
): Table {
  return {
    ...about,
    columns: made.columns,
    async *rows(reader: Reader) {
      for (let afterSeq = 0; ;) {
        // A page names the next one.
        // oxlint-disable-next-line no-await-in-loop
        const page = await reader.entries({ afterSeq, limit: 500 })
        for (const entry of page) for (const row of rowsOf(entry)) yield made.cellsOf(row)
        const last = page.at(-1)
        if (last === undefined) return
        afterSeq = last.seq
      }
    },
  }
}

const entries = entryTable(
  { name: 'entries', title: 'Entries', rowIs: 'one entry of the record, as it was kept', periodBy: 'happened_utc' },
  (entry) => [entry],
  columnsOf<KeptEntry>()
    .number('number', ({ seq }) => seq)
    .text('entry', ({ id }) => id)
    .text('kind', ({ kind }) => kind)
    .moment('happened_utc', ({ happenedAt }) => happenedAt)
    .moment('recorded_utc', ({ recordedAt }) => recordedAt)
    .text('by', ({ by }) => by)
    .text('workstation', ({ workstation }) => workstation)
    .text('corrects', ({ corrects }) => corrects)
    .number('findings', ({ judgement }) => judgement.findings.length)
    .text('body_json', ({ body }) => JSON.stringify(body))
    .text('sha256', ({ hash }) => hash),
)

type Found = Finding & { readonly entry: KeptEntry }

const findings = entryTable(
  {
    name: 'findings',
    title: 'Findings',
    rowIs: 'what one rule found of one entry when it was kept',
    periodBy: 'happened_utc',
  },
  (entry): readonly Found[] => entry.judgement.findings.map((finding) => ({ ...finding, entry })),
  columnsOf<Found>()
    .number('entry_number', ({ entry }) => entry.seq)
    .text('entry', ({ entry }) => entry.id)
    .text('kind', ({ entry }) => entry.kind)
    .moment('happened_utc', ({ entry }) => entry.happenedAt)
    .text('rule', ({ rule }) => rule)
    .text('weight', ({ weight }) => weight)
    .text('says', ({ says }) => says)
    .text('measured', ({ measured }) => measured)
    .text('limit', ({ limit }) => limit)
    .text('source', ({ source }) => source.title),
)

export const unitTables = [
  wounds,
  followUps,
  devices,
  items,
  sets,
  machines,
  people,
  recalls,
  findings,
  entries,
] as const
