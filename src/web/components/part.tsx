import { type ComponentType, type ReactNode, useEffect, useState } from 'react'
import { loadPart } from '../load-part.ts'
import { words } from '../words/words.ts'

type State<Props> =
  | { readonly at: 'loading' }
  | { readonly at: 'loaded'; readonly Part: ComponentType<Props> }
  | { readonly at: 'missing'; readonly error: Error }

/**
 * A part of a page that is loaded when it is first shown. Where it cannot be, it says so in its place: the page around it, and
 * what was typed there, stay.
 */
export function part<Props extends object>(
  load: () => Promise<ComponentType<Props>>,
  meanwhile: ReactNode = null,
): ComponentType<Props> {
  let kept: ComponentType<Props> | undefined
  return function Part(props: Props) {
    const [state, setState] = useState<State<Props>>(kept ? { at: 'loaded', Part: kept } : { at: 'loading' })
    const isLoading = state.at === 'loading'
    useEffect(() => {
      if (!isLoading) return
      let gone = false
      const tell = (next: State<Props>) => {
        if (!gone) setState(next)
      }
      loadPart(load).then(
        (Loaded) => {
          kept = Loaded
          tell({ at: 'loaded', Part: Loaded })
        },
        (error: unknown) => tell({ at: 'missing', error: error instanceof Error ? error : new Error(String(error)) }),
      )
      return () => {
        gone = true
      }
    }, [isLoading])
    switch (state.at) {
      case 'loading':
        return meanwhile
      case 'loaded':
        return <state.Part {...props} />
      case 'missing':
        return (
          <div className="problem stack" role="alert">
            <p>{state.error.message}</p>
            <div>
              <button type="button" onClick={() => setState({ at: 'loading' })}>
                {words.problem.retry}
              </button>
            </div>
          </div>
        )
    }
  }
}
