// npm start: installs what the lock file names, builds the screens when they are old, opens the service.
import { join } from 'node:path'
import { buildScreens } from './build-screens.mjs'
import { ensurePackages, root, runNode } from './node24.mjs'

try {
  ensurePackages()
  await buildScreens()
  process.exitCode = await runNode([join(root, 'src/cli/main.ts'), 'serve'])
} catch (error) {
  console.error(error instanceof Error ? error.message : error)
  process.exitCode = 1
}
