// Puts together what the page holds and what the core tells of it: only what differs. In a list, two
// numbers stand for what is kept of the list before, from and to.

/** The list now: kept pieces, and of what came one by one. */
export function pieced(before, list) {
  return list.flatMap(each => (Array.isArray(each) ? before.slice(...each) : [each]));
}

/** A view of the core's words; what it leaves out is as it was. */
export function together(held, came) {
  const view = { ...held, ...came };
  for (const [name, value] of Object.entries(came)) {
    if (Array.isArray(value)) view[name] = pieced(held[name], value);
  }
  return view;
}
