import './theme/tokens.css'
import './theme/base.css'
import './theme/controls.css'
import './theme/sheets.css'
import './theme/shell.css'
import './theme/print.css'
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { invariant } from '#units/invariant.ts'
import { App } from './app.tsx'
import { keepTheme } from './session/theme.ts'

keepTheme()
const root = document.getElementById('root')
invariant(root !== null, 'index.html has a root')
createRoot(root).render(
  <StrictMode>
    <App />
  </StrictMode>,
)
