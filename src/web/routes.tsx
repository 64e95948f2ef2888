import type { ComponentType } from 'react'
import { createBrowserRouter, type RouteObject } from 'react-router'
import { Broken, NotFound } from './components/Broken.tsx'
import { Frame } from './components/Frame.tsx'

/** A page that is loaded when somebody goes there. */
function page(path: string, load: () => Promise<ComponentType>): RouteObject {
  return { path, lazy: async () => ({ Component: await load() }), ErrorBoundary: Broken }
}

const pages: RouteObject[] = [
  page('/', async () => (await import('./pages/round/RoundPage.tsx')).RoundPage),
  page('/rounds/:key', async () => (await import('./pages/round/OneRoundPage.tsx')).OneRoundPage),
  page('/wash-room', async () => (await import('./pages/wash-room/WashRoomPage.tsx')).WashRoomPage),
  page('/wash-room/cards', async () => (await import('./pages/wash-room/CardsPage.tsx')).CardsPage),
  page('/wash-room/water', async () => (await import('./pages/wash-room/WaterPage.tsx')).WaterPage),
  page('/packing', async () => (await import('./pages/packing/PackingPage.tsx')).PackingPage),
  page('/packing/:key', async () => (await import('./pages/packing/PackPage.tsx')).PackPage),
  page('/machines', async () => (await import('./pages/machines/MachinesPage.tsx')).MachinesPage),
  page('/machines/:key', async () => (await import('./pages/machines/MachinePage.tsx')).MachinePage),
  page('/machines/:key/build', async () => (await import('./pages/machines/BuildPage.tsx')).BuildPage),
  page('/loads/:key', async () => (await import('./pages/machines/LoadPage.tsx')).LoadPage),
  page('/baths', async () => (await import('./pages/baths/BathsPage.tsx')).BathsPage),
  page('/baths/:key', async () => (await import('./pages/baths/BathPage.tsx')).BathPage),
  page('/lots', async () => (await import('./pages/lots/LotsPage.tsx')).LotsPage),
  page('/lots/:key', async () => (await import('./pages/lots/LotPage.tsx')).LotPage),
  page('/safety', async () => (await import('./pages/safety/SafetyPage.tsx')).SafetyPage),
  page('/shelf', async () => (await import('./pages/shelf/ShelfPage.tsx')).ShelfPage),
  page('/theatre', async () => (await import('./pages/theatre/TheatrePage.tsx')).TheatrePage),
  page('/theatre/book', async () => (await import('./pages/theatre/BookPage.tsx')).BookPage),
  page('/theatre/:key', async () => (await import('./pages/theatre/CasePage.tsx')).CasePage),
  page('/wounds', async () => (await import('./pages/wounds/WoundsPage.tsx')).WoundsPage),
  page('/wounds/note', async () => (await import('./pages/wounds/NotePage.tsx')).NotePage),
  page('/wounds/follow-up', async () => (await import('./pages/wounds/FollowUpPage.tsx')).FollowUpPage),
  page('/wounds/rates', async () => (await import('./pages/wounds/RatesPage.tsx')).RatesPage),
  page('/wounds/charts', async () => (await import('./pages/wounds/ChartsPage.tsx')).ChartsPage),
  page('/wounds/charts/:key', async () => (await import('./pages/wounds/ChartPage.tsx')).ChartPage),
  page('/wounds/suspects', async () => (await import('./pages/wounds/SuspectsPage.tsx')).SuspectsPage),
  page(
    '/wounds/investigations',
    async () => (await import('./pages/wounds/InvestigationsPage.tsx')).InvestigationsPage,
  ),
  page(
    '/wounds/investigations/:key',
    async () => (await import('./pages/wounds/InvestigationPage.tsx')).InvestigationPage,
  ),
  page('/wounds/of/:key', async () => (await import('./pages/wounds/WoundPage.tsx')).WoundPage),
  page('/trace', async () => (await import('./pages/trace/TracePage.tsx')).TracePage),
  page('/recalls/:key', async () => (await import('./pages/trace/RecallPage.tsx')).RecallPage),
  page('/unit', async () => (await import('./pages/unit/UnitPage.tsx')).UnitPage),
  page('/unit/register/:what', async () => (await import('./pages/unit/RegisterPage.tsx')).RegisterPage),
  page('/devices/:key', async () => (await import('./pages/unit/DevicePage.tsx')).DevicePage),
  page('/sets/:key', async () => (await import('./pages/unit/SetPage.tsx')).SetPage),
  page('/items/:key', async () => (await import('./pages/items/ItemPage.tsx')).ItemPage),
  page('/bench', async () => (await import('./pages/bench/BenchPage.tsx')).BenchPage),
  { path: '*', Component: NotFound },
]

export const router = createBrowserRouter([{ Component: Frame, ErrorBoundary: Broken, children: pages }])
