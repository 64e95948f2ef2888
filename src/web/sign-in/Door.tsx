import { useQueryClient } from '@tanstack/react-query'
import { type ReactNode, useEffect, useRef, useState } from 'react'
import { useNavigate } from 'react-router'
import type { MeAnswer } from '#service/api-types.ts'
import { signedOutEvent } from '../api/client.ts'
import { Caution } from '../components/Caution.tsx'
import { paths } from '../paths.ts'
import { NobodyCanSignIn } from '../offline/AsKnown.tsx'
import { sendAllWaiting } from '../offline/outbox.ts'
import { useUnit } from '../session/unit.ts'
import { useStore } from '../session/use-store.ts'
import { whoStore } from '../session/who.ts'
import { words } from '../words/words.ts'
import './door.css'
import { meQuery } from './me.ts'
import { SignInForm } from './SignInForm.tsx'
import { useActivity } from './use-activity.ts'

/**
 * Lets in whoever has signed in. When the time without doing anything has run out, the page stays as it was behind the
 * closed door, so that a half-filled form is there when the same person comes back; for another one it begins anew.
 */
export function Door({ me, children }: { readonly me: MeAnswer; readonly children: ReactNode }) {
  const [wasIn, setWasIn] = useState<string | null>(me.person?.id ?? null)
  const client = useQueryClient()
  const navigate = useNavigate()
  const isOpen = me.signIn === 'notAsked' || me.person !== null
  useActivity(me)

  useEffect(() => {
    const onSignedOut = () => void client.invalidateQueries({ queryKey: meQuery.queryKey })
    addEventListener(signedOutEvent, onSignedOut)
    return () => removeEventListener(signedOutEvent, onSignedOut)
  }, [client])

  const person = me.person?.id
  if (person !== undefined && person !== wasIn) setWasIn(person)
  const last = useRef<string | null>(null)
  useEffect(() => {
    if (person === undefined) return
    whoStore.set(person)
    void sendAllWaiting()
    if (last.current !== null && last.current !== person) void navigate(paths.round)
    last.current = person
  }, [person, navigate])

  // Another page of this browser has let somebody else in.
  const who = useStore(whoStore)
  useEffect(() => {
    if (person !== undefined && who !== person) void client.invalidateQueries({ queryKey: meQuery.queryKey })
  }, [client, person, who])

  if (me.signIn === 'notAsked') return children
  return (
    <>
      {(isOpen || wasIn !== null) && <div key={isOpen ? person : wasIn}>{children}</div>}
      {!isOpen && <Closed me={me} before={wasIn !== null} />}
    </>
  )
}

function Closed({ me, before }: { readonly me: MeAnswer; readonly before: boolean }) {
  const { unit } = useUnit()
  const dialog = useRef<HTMLDialogElement>(null)
  useEffect(() => {
    if (dialog.current?.open === false) dialog.current.showModal()
  }, [])
  return (
    <dialog
      ref={dialog}
      className="door"
      aria-labelledby="door-title"
      // There is nothing behind it for who has not signed in.
      onCancel={(event) => event.preventDefault()}
    >
      <div className="stack">
        <p className="soft">{unit.name}</p>
        <h1 id="door-title">{words.signIn.title}</h1>
        {me.device !== null && <p className="soft">{words.signIn.atTablet(me.device.name)}</p>}
        {before && <p>{words.signIn.goOn}</p>}
        <NobodyCanSignIn />
        <SignInForm me={me} onSignedIn={() => dialog.current?.close()} />
        <Caution />
      </div>
    </dialog>
  )
}
