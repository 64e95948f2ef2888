import { useMayManage } from '../../sign-in/me.ts'
import { AccessLog } from './AccessLog.tsx'
import { Accounts } from './Accounts.tsx'
import { IdentityLog } from './IdentityLog.tsx'
import { Tablets } from './Tablets.tsx'

/** What a manager does about who may sign in. Not shown where no sign-in is asked for. */
export function Access() {
  if (!useMayManage()) return null
  return (
    <>
      <Accounts />
      <Tablets />
      <AccessLog />
      <IdentityLog />
    </>
  )
}
