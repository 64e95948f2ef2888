import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'react-router'
import type { SetKnown } from '#road/catalogue/fold.ts'
import { instant } from '#road/instant.ts'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { EntryForm, type OnKept } from '../../components/EntryForm.tsx'
import { SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { type Times, useTimes } from '../../session/unit.ts'
import { slug } from '../../make-key.ts'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'
import { CountLines, linesOf, oneLine, sheetOf } from '../unit/CountLines.tsx'
import { NameAndKey } from '../unit/NameAndKey.tsx'
import { useNameAndKey } from '../unit/use-name-and-key.ts'
import { NeededAt } from './NeededAt.tsx'

/** A borrowed set that arrives: new here, or one that was here before and went back. */
export function LoanForm({ onKept }: { readonly onKept: OnKept }) {
  const sets = useQuery(knownQuery('set', ['returned'])).data ?? []
  const [chosen, setChosen] = useState<SubjectId<'set'> | ''>('')
  const before = sets.find((row) => row.subject === chosen)?.state ?? null
  const w = words.loans
  return (
    <>
      {sets.length > 0 && (
        <SelectField
          label={w.before}
          value={chosen}
          optional
          empty={w.fresh}
          options={sets.map((row) => ({ value: row.subject, label: row.state.name }))}
          onChange={setChosen}
        />
      )}
      <LoanFields key={chosen} before={before} onKept={onKept} />
    </>
  )
}

interface Props {
  readonly before: SetKnown | null
  readonly onKept: OnKept
}

function LoanFields({ before, onKept }: Props) {
  const times = useTimes()
  const devices = useQuery(knownQuery('device')).data
  const named = useNameAndKey(before?.name, before === null ? null : keyToday(before.name, times))
  const [lender, setLender] = useState(before?.loan?.lender ?? '')
  const [lines, setLines] = useState(before === null ? oneLine : linesOf(before.countSheet))
  const [known, setKnown] = useState(before !== null)
  const [needed, setNeeded] = useState('')
  const [due, setDue] = useState('')
  const [sterile, setSterile] = useState(false)
  const [instructions, setInstructions] = useState(false)
  const [mass, setMass] = useState('')
  const w = words.loans
  const countSheet = sheetOf(lines)
  const [neededAt, dueBack] = [times.fromInput(needed), times.fromInput(due)]
  if (devices?.length === 0) {
    return (
      <p>
        {words.unit.register.noDevices} <Link to={paths.register('device')}>{words.unit.register.device}</Link>
      </p>
    )
  }
  const lacks = named.name === '' || named.keyText === '' || lender === '' || countSheet === null
  return (
    <EntryForm
      kind="loan-arrived"
      body={
        lacks || neededAt === undefined || dueBack === undefined
          ? null
          : {
              set: `set:${named.keyText}`,
              name: named.name,
              lender,
              countSheet,
              known,
              neededAt: instant(Date.parse(neededAt)),
              dueBack: instant(Date.parse(dueBack)),
              declaredSterile: sterile,
              instructionsOnFile: instructions,
              ...(mass === '' ? {} : { massKg: Number(mass) }),
            }
      }
      action={words.unit.register.loan}
      judged
      onKept={onKept}
    >
      <NameAndKey {...named} />
      <TextField label={w.lender} value={lender} onChange={setLender} />
      <NeededAt value={needed} onChange={setNeeded} />
      <TextField label={w.dueBack} type="datetime-local" value={due} onChange={setDue} />
      <Tick checked={known} onChange={setKnown}>
        {w.known}
      </Tick>
      <Tick checked={sterile} onChange={setSterile}>
        {w.sterile}
      </Tick>
      <Tick checked={instructions} onChange={setInstructions}>
        {w.instructions}
      </Tick>
      <TextField label={w.mass} type="number" min={0} step="any" optional value={mass} onChange={setMass} />
      <CountLines
        lines={lines}
        devices={(devices ?? []).map((row) => ({ value: row.subject, label: row.state.name }))}
        onChange={setLines}
      />
    </EntryForm>
  )
}

/** Each stay of a borrowed set is one of its own, by the day on which it came. */
function keyToday(name: string, times: Times): string {
  const day = times.toInput(new Date().toISOString()).slice(2, 10).replaceAll('-', '')
  return `${slug(name).slice(0, 33)}-${day}`
}
