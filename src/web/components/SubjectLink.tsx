import { Link } from 'react-router'
import type { SubjectId } from '#road/subject.ts'
import { pathOf } from '../paths.ts'
import { Named } from './Named.tsx'

export function SubjectLink({ id }: { readonly id: SubjectId }) {
  return (
    <Link to={pathOf(id)}>
      <Named id={id} />
    </Link>
  )
}
