import { type SubjectId, subjectKey, subjectKind } from '#road/subject.ts'

/** Every address of the program. */
export const paths = {
  start: '/start',
  round: '/',
  oneRound: (id: SubjectId<'round'>) => `/rounds/${subjectKey(id)}`,
  washRoom: '/wash-room',
  washRoomFor: (id: SubjectId<'round'>) => `/wash-room?round=${subjectKey(id)}`,
  water: '/wash-room/water',
  packing: '/packing',
  packingOf: (id: SubjectId<'round'>) => `/packing/${subjectKey(id)}`,
  machines: '/machines',
  machine: (id: SubjectId<'machine'>) => `/machines/${subjectKey(id)}`,
  build: (id: SubjectId<'machine'>) => `/machines/${subjectKey(id)}/build`,
  buildRepeat: (id: SubjectId<'machine'>) => `/machines/${subjectKey(id)}/build?purpose=retest`,
  load: (id: SubjectId<'load'>) => `/loads/${subjectKey(id)}`,
  baths: '/baths',
  bath: (id: SubjectId<'bath'>) => `/baths/${subjectKey(id)}`,
  lots: '/lots',
  lot: (id: SubjectId<'lot'>) => `/lots/${subjectKey(id)}`,
  safety: '/safety',
  shelf: '/shelf',
  theatre: '/theatre',
  book: '/theatre/book',
  oneCase: (id: SubjectId<'case'>) => `/theatre/${subjectKey(id)}`,
  list: '/list',
  listImport: '/list/import',
  listOf: (day: string) => `/list/${day}`,
  listForWall: (day: string) => `/list/${day}/wall`,
  listForLine: (day: string) => `/list/${day}/wash-room`,
  wounds: '/wounds',
  noteWound: (id?: SubjectId<'case'>) => (id ? `/wounds/note?case=${subjectKey(id)}` : '/wounds/note'),
  followUp: (id: SubjectId<'case'>) => `/wounds/follow-up?case=${subjectKey(id)}`,
  woundCharts: '/wounds/charts',
  woundChart: (id: SubjectId<'chart'>) => `/wounds/charts/${subjectKey(id)}`,
  suspects: '/wounds/suspects',
  investigations: '/wounds/investigations',
  openInvestigation: (chart: SubjectId<'chart'>) => `/wounds/investigations?chart=${subjectKey(chart)}`,
  investigation: (id: SubjectId<'investigation'>) => `/wounds/investigations/${subjectKey(id)}`,
  investigationNow: (id: SubjectId<'investigation'>) => `/wounds/investigations/${subjectKey(id)}/now`,
  woundRates: '/wounds/rates',
  wound: (id: SubjectId<'wound'>) => `/wounds/of/${subjectKey(id)}`,
  trace: '/trace',
  traceOf: (id: SubjectId) => `/trace?subject=${encodeURIComponent(id)}`,
  recall: (id: SubjectId<'recall'>) => `/recalls/${subjectKey(id)}`,
  /** The page of a subject with its recall form open, and the reason filled in. */
  recallOf: (id: SubjectId, why: string, since?: string) =>
    `${pathOf(id)}?recall=${encodeURIComponent(why)}${since === undefined ? '' : `&since=${encodeURIComponent(since)}`}`,
  device: (id: SubjectId<'device'>) => `/devices/${subjectKey(id)}`,
  set: (id: SubjectId<'set'>) => `/sets/${subjectKey(id)}`,
  item: (id: SubjectId<'item'>) => `/items/${subjectKey(id)}`,
  cards: (ids: readonly SubjectId<'device'>[], use?: string) =>
    `/wash-room/cards?${ids.map((id) => `device=${subjectKey(id)}`).join('&')}${use === undefined ? '' : `&use=${encodeURIComponent(use)}`}`,
  bench: '/bench',
  unit: '/unit',
  seal: '/unit/seal',
  group: '/unit/group',
  tables: '/unit/tables',
  webhooks: '/unit/webhooks',
  registerMachine: (type: 'washer') => `/unit/register/machine?type=${type}`,
  change: (id: SubjectId<'person' | 'set' | 'machine' | 'device'>) =>
    `/unit/register/${subjectKind(id)}?copy=${subjectKey(id)}`,
  register: (what: 'person' | 'device' | 'set' | 'machine' | 'item' | 'loan') => `/unit/register/${what}`,
} as const

/** Where a subject is at home; what has no page of its own is shown in its trace. */
export function pathOf(id: SubjectId): string {
  switch (subjectKind(id)) {
    case 'round':
      return paths.oneRound(id as SubjectId<'round'>)
    case 'machine':
      return paths.machine(id as SubjectId<'machine'>)
    case 'load':
      return paths.load(id as SubjectId<'load'>)
    case 'case':
      return paths.oneCase(id as SubjectId<'case'>)
    case 'recall':
      return paths.recall(id as SubjectId<'recall'>)
    case 'device':
      return paths.device(id as SubjectId<'device'>)
    case 'set':
      return paths.set(id as SubjectId<'set'>)
    case 'item':
      return paths.item(id as SubjectId<'item'>)
    case 'bath':
      return paths.bath(id as SubjectId<'bath'>)
    case 'chart':
      return paths.woundChart(id as SubjectId<'chart'>)
    case 'investigation':
      return paths.investigation(id as SubjectId<'investigation'>)
    case 'wound':
      return paths.wound(id as SubjectId<'wound'>)
    case 'lot':
      return paths.lot(id as SubjectId<'lot'>)
    case 'list':
      return paths.listOf(subjectKey(id))
    case 'unit':
    case 'policy':
      return paths.unit
    case 'person':
    case 'wash':
    case 'outlet':
    case 'immersion':
    case 'log':
    case 'sample':
      return paths.traceOf(id)
  }
}
