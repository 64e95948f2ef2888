import { makeKeptStore } from './store.ts'

export type Theme = 'system' | 'light' | 'dark'

export const themeStore = makeKeptStore<Theme>('nilgrowth.theme', 'system')

/** Keeps the page in the chosen theme, and in the system's when that is the choice. */
export function keepTheme(): void {
  const dark = matchMedia('(prefers-color-scheme: dark)')
  const apply = () => {
    const chosen = themeStore.get()
    const isDark = chosen === 'dark' || (chosen === 'system' && dark.matches)
    document.documentElement.dataset['theme'] = isDark ? 'dark' : 'light'
  }
  dark.addEventListener('change', apply)
  themeStore.subscribe(apply)
  apply()
}
