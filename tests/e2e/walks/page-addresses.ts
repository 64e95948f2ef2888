import assert from 'node:assert/strict'
import { matchPath } from 'react-router'
import { demoStories } from '#demo/demo-stories.ts'
import { type SubjectKind, subjectKey } from '#road/subject.ts'
import type { KnownPage } from '#service/api-types.ts'
import { type PagePath, pagePaths } from '#web/page-paths.ts'
import type { RunningService } from '../../support/running-service.ts'

const { failedIndicator, lateWounds } = demoStories

type KeyOf = (kind: SubjectKind, standing?: string) => Promise<string>

/** Every page of the program, each with something of the demonstration on it. A page that is missing does not compile. */
async function addressesByPage(key: KeyOf): Promise<Record<PagePath, readonly string[]>> {
  const recorded = await key('case', 'recorded')
  const tomorrow = new Date(Date.now() + 86_400_000).toISOString().slice(0, 10)
  return {
    '/': ['/'],
    '/rounds/:key': [`/rounds/${subjectKey(failedIndicator.openedAfterFailure)}`],
    '/wash-room': ['/wash-room', `/wash-room?round=${await key('round', 'soaking')}`],
    '/wash-room/cards': [`/wash-room/cards?device=${await key('device')}`],
    '/wash-room/water': ['/wash-room/water'],
    '/packing': ['/packing'],
    '/packing/:key': [`/packing/${await key('round', 'onShelf')}`],
    '/machines': ['/machines'],
    '/machines/:key': ['/machines/a', `/machines/${subjectKey(failedIndicator.machine)}`],
    '/machines/:key/build': ['/machines/a/build'],
    '/loads/:key': [`/loads/${subjectKey(lateWounds.load)}`, `/loads/${await key('load', 'quarantined')}`],
    '/baths': ['/baths'],
    '/baths/:key': [`/baths/${await key('bath', 'inUse')}`, `/baths/${await key('bath', 'discarded')}`],
    '/lots': ['/lots'],
    '/lots/:key': [`/lots/${await key('lot', 'usable')}`],
    '/safety': ['/safety'],
    '/shelf': ['/shelf'],
    '/theatre': ['/theatre'],
    '/theatre/book': ['/theatre/book'],
    '/theatre/:key': [`/theatre/${subjectKey(failedIndicator.runningCase)}`, `/theatre/${recorded}`],
    '/list': ['/list'],
    '/list/import': ['/list/import'],
    '/list/:day': [`/list/${tomorrow}`],
    '/list/:day/wall': [`/list/${tomorrow}/wall`],
    '/list/:day/wash-room': [`/list/${tomorrow}/wash-room`],
    '/wounds': ['/wounds'],
    '/wounds/note': ['/wounds/note', `/wounds/note?case=${recorded}`],
    '/wounds/follow-up': ['/wounds/follow-up', `/wounds/follow-up?case=${recorded}`],
    '/wounds/rates': ['/wounds/rates'],
    '/wounds/charts': ['/wounds/charts'],
    '/wounds/charts/:key': [`/wounds/charts/${await key('chart')}`],
    '/wounds/suspects': ['/wounds/suspects'],
    '/wounds/investigations': [
      '/wounds/investigations',
      `/wounds/investigations?chart=${subjectKey(demoStories.handWash.chart)}`,
    ],
    '/wounds/investigations/:key': [`/wounds/investigations/${await key('investigation')}`],
    '/wounds/investigations/:key/now': [`/wounds/investigations/${await key('investigation')}/now`],
    '/wounds/of/:key': [
      `/wounds/of/${subjectKey(lateWounds.unjudged)}`,
      `/wounds/of/${subjectKey(lateWounds.wounds[0] ?? lateWounds.unjudged)}`,
    ],
    '/trace': ['/trace', `/trace?subject=${lateWounds.load}`, `/trace?subject=${lateWounds.wounds[0] ?? ''}`],
    '/recalls/:key': [`/recalls/${subjectKey(failedIndicator.recall)}`],
    '/unit': ['/unit'],
    '/unit/seal': ['/unit/seal'],
    '/unit/group': ['/unit/group'],
    '/unit/tables': ['/unit/tables'],
    '/unit/webhooks': ['/unit/webhooks'],
    '/unit/register/:what': [
      ...['person', 'device', 'set', 'machine', 'item', 'loan'].map((what) => `/unit/register/${what}`),
      '/unit/register/machine?copy=a',
    ],
    '/devices/:key': [`/devices/${await key('device')}`],
    '/sets/:key': [`/sets/${await key('set', 'onRound')}`],
    '/items/:key': [`/items/${await key('item')}`],
    '/bench': ['/bench'],
  }
}

/** Every address that is looked at; each is held to be of the page that it stands for. */
export async function everyAddress(service: RunningService): Promise<readonly string[]> {
  const byPage = await addressesByPage(async (kind, standing) => {
    const query = new URLSearchParams({ kind, limit: '1', ...(standing === undefined ? {} : { standing }) })
    const { body } = await service.ask('GET', `/api/known?${query.toString()}`)
    const [row] = (body as KnownPage).rows
    assert.ok(row, `the demonstration has a ${kind} that is ${standing ?? 'known'}`)
    return subjectKey(row.subject)
  })
  assert.deepEqual(Object.keys(byPage).sort(), pagePaths.toSorted())
  for (const [page, addresses] of Object.entries(byPage)) {
    assert.ok(addresses.length > 0, `${page} is looked at`)
    for (const address of addresses) assert.ok(matchPath(page, new URL(address, service.url).pathname), address)
  }
  return [...Object.values(byPage).flat(), '/no-such-page']
}

/** A page of each kind with a key that nothing has, and one with a key that nothing can have. */
export function unknownAddresses(): readonly string[] {
  const keyed = pagePaths.filter((page) => page.includes(':key'))
  assert.ok(keyed.length >= 15, `${keyed.length} pages are of one subject`)
  return [
    ...keyed.map((page) => page.replace(':key', 'no-such-thing')),
    ...keyed.map((page) => page.replace(':key', 'no%20such%2Fthing')),
    '/trace?subject=wound:no-such-thing',
  ]
}

/** Pages that are there without what the address names after its question mark. */
export const unknownAfterMark: readonly string[] = [
  '/wash-room?round=no-such-thing',
  '/wash-room/cards?device=no-such-thing',
  '/wounds/note?case=no-such-thing',
  '/wounds/follow-up?case=no-such-thing',
  '/wounds/investigations?chart=no-such-thing',
  '/unit/register/device?copy=no-such-thing',
  '/unit/register/set?copy=no-such-thing',
  '/unit/register/machine?copy=no-such-thing',
  '/unit/register/person?copy=no-such-thing',
]
