import { useQuery, useQueryClient } from '@tanstack/react-query'
import { Suspense, useEffect, useRef } from 'react'
import { Outlet, ScrollRestoration, useLocation } from 'react-router'
import { ClockAlarms } from '../clocks/ClockAlarms.tsx'
import { ClockStrip } from '../clocks/ClockStrip.tsx'
import { followRecord } from '../api/live.ts'
import { unitQuery } from '../api/queries.ts'
import { Door } from '../sign-in/Door.tsx'
import { meQuery } from '../sign-in/me.ts'
import { SignatureDialog } from '../sign-in/SignatureDialog.tsx'
import { AsKnown } from '../offline/AsKnown.tsx'
import { keepSending } from '../offline/outbox.ts'
import { UnitContext, useUnit } from '../session/unit.ts'
import { words } from '../words/words.ts'
import { Alarms } from './Alarms.tsx'
import { Caution } from './Caution.tsx'
import { FootBar } from './FootBar.tsx'
import { Head } from './Head.tsx'
import { Loaded } from './Loaded.tsx'
import { part } from './part.tsx'
import { Plan } from './Plan.tsx'
import { useScanner } from './use-scanner.ts'

const StartPage = part(async () => (await import('../pages/start/StartPage.tsx')).StartPage)

/** The frame of every page. Without a unit there is only the first start. */
export function Frame() {
  const unit = useQuery(unitQuery)
  const me = useQuery(meQuery)
  return (
    <Loaded query={unit}>
      {(state) =>
        state.state === 'open' ? (
          <UnitContext value={state}>
            <Loaded query={me}>
              {(who) => (
                <Door me={who}>
                  <OpenFrame />
                </Door>
              )}
            </Loaded>
          </UnitContext>
        ) : (
          <StartPage state={state} />
        )
      }
    </Loaded>
  )
}

function OpenFrame() {
  const client = useQueryClient()
  const main = useRef<HTMLElement>(null)
  const { pathname } = useLocation()
  const arrived = useRef(pathname)
  const began = useRef({
    seq: useUnit().head.seq,
    at: client.getQueryState(unitQuery.queryKey)?.dataUpdatedAt ?? 0,
  })
  useEffect(() => followRecord(client, began.current), [client])
  useEffect(keepSending, [])
  useScanner()
  // Going to another page puts the focus at its beginning, as a new document would.
  useEffect(() => {
    if (arrived.current !== pathname) main.current?.focus({ preventScroll: true })
    arrived.current = pathname
  }, [pathname])
  return (
    <>
      <a className="skip" href="#page">
        {words.skip}
      </a>
      <Alarms />
      <ClockAlarms />
      <ClockStrip />
      <div className="shell">
        <Head />
        <nav className="plan" aria-label={words.shell.planLabel}>
          <Plan />
        </nav>
        <main className="page" id="page" ref={main} tabIndex={-1}>
          <AsKnown />
          <Suspense fallback={<p>{words.loading}</p>}>
            <Outlet />
          </Suspense>
          <Caution />
        </main>
      </div>
      <FootBar />
      <SignatureDialog />
      <ScrollRestoration />
    </>
  )
}
