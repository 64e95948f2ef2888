import { useMayAudit, useMayManage } from '../../sign-in/me.ts'
import { AccessLog } from './AccessLog.tsx'
import { Accounts } from './Accounts.tsx'
import { IdentityLog } from './IdentityLog.tsx'
import { Tablets } from './Tablets.tsx'

/** What a manager does about who may sign in, and an auditor sees of it. Not shown where no sign-in is asked for. */
export function Access() {
  const mayManage = useMayManage()
  const mayAudit = useMayAudit()
  return (
    <>
      {mayManage && <Accounts />}
      {mayManage && <Tablets />}
      {mayAudit && <AccessLog />}
      {mayAudit && <IdentityLog />}
    </>
  )
}
