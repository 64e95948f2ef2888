import { useState } from 'react'
import { Link } from 'react-router'
import { isUnsent, outboxStore } from '../offline/outbox.ts'
import { paths } from '../paths.ts'
import { type Theme, themeStore } from '../session/theme.ts'
import { useUnit } from '../session/unit.ts'
import { useStore } from '../session/use-store.ts'
import { whoStore } from '../session/who.ts'
import { words } from '../words/words.ts'
import { FindBox } from './FindBox.tsx'
import { useNames } from './Named.tsx'
import { useMe } from '../sign-in/me.ts'
import { OwnDialog } from '../sign-in/OwnDialog.tsx'
import { WhoDialog } from './WhoDialog.tsx'
import { part } from './part.tsx'

// It shows findings, and they bring the schemas along: the first screen does without.
const OutboxDialog = part(async () => (await import('../offline/OutboxDialog.tsx')).OutboxDialog)

export function Head() {
  const { unit } = useUnit()
  return (
    <header className="head">
      <Link className="unit-name" to={paths.round}>
        {unit.name}
        {unit.demonstration && (
          <span className="tag" title={words.demonstration}>
            {words.demonstrationShort}
          </span>
        )}
      </Link>
      <FindBox />
      <div className="right">
        <OutboxButton />
        <ThemeChoice />
        <WhoButton />
      </div>
    </header>
  )
}

function WhoButton() {
  const [open, setOpen] = useState(false)
  const me = useMe()
  const who = useStore(whoStore)
  const name = useNames('person')(who)
  return (
    <>
      <button
        type="button"
        className={who === null ? 'main' : ''}
        aria-label={who === null ? words.who.nobody : words.who.change(name)}
        onClick={() => setOpen(true)}
      >
        {who === null ? words.who.nobody : name}
      </button>
      {open &&
        (me?.signIn === 'required' ? (
          <OwnDialog me={me} onClose={() => setOpen(false)} />
        ) : (
          <WhoDialog onClose={() => setOpen(false)} />
        ))}
    </>
  )
}

const themes: readonly Theme[] = ['system', 'light', 'dark']

function ThemeChoice() {
  const theme = useStore(themeStore)
  return (
    <select
      aria-label={words.shell.theme}
      style={{ width: 'auto', maxWidth: '11rem' }}
      value={theme}
      onChange={(event) => themeStore.set(themes.find((each) => each === event.target.value) ?? 'system')}
    >
      {themes.map((each) => (
        <option key={each} value={each}>
          {words.shell.themes[each]}
        </option>
      ))}
    </select>
  )
}

/** What waits, was refused, or met findings when it arrived; nothing while there is nothing of it. */
function OutboxButton() {
  const all = useStore(outboxStore)
  const [open, setOpen] = useState(false)
  const unsent = all.filter(isUnsent).length
  const refused = all.filter(({ standing }) => standing.at === 'refused').length
  const found = all.filter(({ standing }) => standing.at === 'found').length
  const text = [
    ...(unsent > 0 ? [words.outbox.open(unsent)] : []),
    ...(refused > 0 ? [words.outbox.refusedOf(refused)] : []),
    ...(found > 0 ? [words.outbox.foundOf(found)] : []),
  ]
  if (text.length === 0 && !open) return null
  return (
    <>
      <button type="button" className={refused + found > 0 ? 'main' : ''} onClick={() => setOpen(true)}>
        {text.length === 0 ? words.outbox.title : text.join(', ')}
      </button>
      {open && <OutboxDialog onClose={() => setOpen(false)} />}
    </>
  )
}
