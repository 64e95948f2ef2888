/** The values of a closed list with their words, in the order in which they were written down. */
export function optionsOf<Value extends string>(
  table: Readonly<Record<Value, string>>,
): { value: Value; label: string }[] {
  return (Object.entries(table) as [Value, string][]).map(([value, label]) => ({ value, label }))
}
