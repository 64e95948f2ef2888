import { useState } from 'react'
import { Link, useParams, useSearchParams } from 'react-router'
import { NotFound } from '../../components/Broken.tsx'
import { Page } from '../../components/Page.tsx'
import { paths } from '../../paths.ts'
import type { Outcome } from '../../session/use-entry.ts'
import { words } from '../../words/words.ts'
import { ItemForm } from '../items/ItemForm.tsx'
import { LoanForm } from '../items/LoanForm.tsx'
import { DeviceForm } from './DeviceForm.tsx'
import { MachineForm } from './MachineForm.tsx'
import { PersonForm } from './PersonForm.tsx'
import { SetForm } from './SetForm.tsx'

const forms = {
  person: PersonForm,
  device: DeviceForm,
  set: SetForm,
  machine: MachineForm,
  item: ItemForm,
  loan: LoanForm,
} as const

export function RegisterPage() {
  const { what = '' } = useParams()
  const [search] = useSearchParams()
  const changed = search.get('copy')
  const [kept, setKept] = useState<readonly Outcome[]>([])
  if (!isRegistrable(what)) return <NotFound />
  const Form = forms[what]
  const w = words.unit.register
  return (
    <Page title={changed === null ? w[what] : words.unit.changeTitle(changed)}>
      <output>
        {kept.length > 0 && (
          <p className="told">
            {kept.at(-1) === 'waiting' ? words.form.waiting : words.form.kept} {changed === null && w.again}
          </p>
        )}
      </output>
      <Form key={`${what} ${kept.length}`} onKept={(outcome) => setKept((before) => [...before, outcome])} />
      <p className="row">
        <Link className="button" to={paths.unit}>
          {w.back}
        </Link>
        <Link className="button" to={paths.round}>
          {words.shell.round}
        </Link>
      </p>
    </Page>
  )
}

function isRegistrable(what: string): what is keyof typeof forms {
  return what in forms
}
