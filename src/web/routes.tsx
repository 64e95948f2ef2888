import type { ComponentType } from 'react'
import { createBrowserRouter, type RouteObject } from 'react-router'
import { Broken, NotFound } from './components/Broken.tsx'
import { Frame } from './components/Frame.tsx'
import { part } from './components/part.tsx'
import type { PagePath } from './page-paths.ts'
import { words } from './words/words.ts'

/** Every page, loaded when somebody goes there: not by the router, which shows nothing in place of one that cannot be. */
const pages: Record<PagePath, () => Promise<ComponentType>> = {
  '/': async () => (await import('./pages/round/RoundPage.tsx')).RoundPage,
  '/rounds/:key': async () => (await import('./pages/round/OneRoundPage.tsx')).OneRoundPage,
  '/wash-room': async () => (await import('./pages/wash-room/WashRoomPage.tsx')).WashRoomPage,
  '/wash-room/cards': async () => (await import('./pages/wash-room/CardsPage.tsx')).CardsPage,
  '/wash-room/water': async () => (await import('./pages/wash-room/WaterPage.tsx')).WaterPage,
  '/packing': async () => (await import('./pages/packing/PackingPage.tsx')).PackingPage,
  '/packing/:key': async () => (await import('./pages/packing/PackPage.tsx')).PackPage,
  '/machines': async () => (await import('./pages/machines/MachinesPage.tsx')).MachinesPage,
  '/machines/:key': async () => (await import('./pages/machines/MachinePage.tsx')).MachinePage,
  '/machines/:key/build': async () => (await import('./pages/machines/BuildPage.tsx')).BuildPage,
  '/loads/:key': async () => (await import('./pages/machines/LoadPage.tsx')).LoadPage,
  '/baths': async () => (await import('./pages/baths/BathsPage.tsx')).BathsPage,
  '/baths/:key': async () => (await import('./pages/baths/BathPage.tsx')).BathPage,
  '/lots': async () => (await import('./pages/lots/LotsPage.tsx')).LotsPage,
  '/lots/:key': async () => (await import('./pages/lots/LotPage.tsx')).LotPage,
  '/safety': async () => (await import('./pages/safety/SafetyPage.tsx')).SafetyPage,
  '/shelf': async () => (await import('./pages/shelf/ShelfPage.tsx')).ShelfPage,
  '/theatre': async () => (await import('./pages/theatre/TheatrePage.tsx')).TheatrePage,
  '/theatre/book': async () => (await import('./pages/theatre/BookPage.tsx')).BookPage,
  '/theatre/:key': async () => (await import('./pages/theatre/CasePage.tsx')).CasePage,
  '/list': async () => (await import('./pages/list/ListPage.tsx')).ListPage,
  '/list/import': async () => (await import('./pages/list/ImportPage.tsx')).ImportPage,
  '/list/:day': async () => (await import('./pages/list/ListPage.tsx')).ListPage,
  '/list/:day/wall': async () => (await import('./pages/list/WallPage.tsx')).WallPage,
  '/list/:day/wash-room': async () => (await import('./pages/list/LinePage.tsx')).LinePage,
  '/wounds': async () => (await import('./pages/wounds/WoundsPage.tsx')).WoundsPage,
  '/wounds/note': async () => (await import('./pages/wounds/NotePage.tsx')).NotePage,
  '/wounds/follow-up': async () => (await import('./pages/wounds/FollowUpPage.tsx')).FollowUpPage,
  '/wounds/rates': async () => (await import('./pages/wounds/RatesPage.tsx')).RatesPage,
  '/wounds/charts': async () => (await import('./pages/wounds/ChartsPage.tsx')).ChartsPage,
  '/wounds/charts/:key': async () => (await import('./pages/wounds/ChartPage.tsx')).ChartPage,
  '/wounds/suspects': async () => (await import('./pages/wounds/SuspectsPage.tsx')).SuspectsPage,
  '/wounds/investigations': async () => (await import('./pages/wounds/InvestigationsPage.tsx')).InvestigationsPage,
  '/wounds/investigations/:key': async () => (await import('./pages/wounds/InvestigationPage.tsx')).InvestigationPage,
  '/wounds/investigations/:key/now': async () =>
    (await import('./pages/wounds/InvestigationNowPage.tsx')).InvestigationNowPage,
  '/wounds/of/:key': async () => (await import('./pages/wounds/WoundPage.tsx')).WoundPage,
  '/trace': async () => (await import('./pages/trace/TracePage.tsx')).TracePage,
  '/recalls/:key': async () => (await import('./pages/trace/RecallPage.tsx')).RecallPage,
  '/unit': async () => (await import('./pages/unit/UnitPage.tsx')).UnitPage,
  '/unit/seal': async () => (await import('./pages/unit/SealPage.tsx')).SealPage,
  '/unit/group': async () => (await import('./pages/unit/GroupPage.tsx')).GroupPage,
  '/unit/tables': async () => (await import('./pages/unit/TablesPage.tsx')).TablesPage,
  '/unit/webhooks': async () => (await import('./pages/unit/WebhooksPage.tsx')).WebhooksPage,
  '/unit/register/:what': async () => (await import('./pages/unit/RegisterPage.tsx')).RegisterPage,
  '/devices/:key': async () => (await import('./pages/unit/DevicePage.tsx')).DevicePage,
  '/sets/:key': async () => (await import('./pages/unit/SetPage.tsx')).SetPage,
  '/items/:key': async () => (await import('./pages/items/ItemPage.tsx')).ItemPage,
  '/bench': async () => (await import('./pages/bench/BenchPage.tsx')).BenchPage,
}

const routes: RouteObject[] = [
  ...Object.entries(pages).map(([path, load]) => ({
    path,
    Component: part(load, <p>{words.loading}</p>),
    ErrorBoundary: Broken,
  })),
  { path: '*', Component: NotFound },
]

export const router = createBrowserRouter([{ Component: Frame, ErrorBoundary: Broken, children: routes }])
