import { NavLink } from 'react-router'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'

/** What else there is of wounds. */
export function WoundPlaces() {
  const { places } = words.wounds
  return (
    <nav className="places no-print" aria-label={words.theatre.wound.title}>
      <NavLink to={paths.wounds} end>
        {places.register}
      </NavLink>
      <NavLink to={paths.woundRates}>{places.rates}</NavLink>
      <NavLink to={paths.woundCharts}>{places.charts}</NavLink>
      <NavLink to={paths.suspects}>{places.suspects}</NavLink>
      <NavLink to={paths.investigations}>{places.investigations}</NavLink>
    </nav>
  )
}
