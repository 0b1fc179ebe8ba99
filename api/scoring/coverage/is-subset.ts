/** Whether `outer` holds every member of `inner`. */
export function isSubset(inner: ReadonlySet<number>, outer: ReadonlySet<number>): boolean {
  if (inner.size > outer.size) return false;
  for (const member of inner) if (!outer.has(member)) return false;
  return true;
}
