// A badge's code is a secret: it is not shown, and not looked up among the labels, neither whole nor in part.

/** Groups of five as on a badge, whose beginning a scanner may have lost. */
const GROUPS = /([0-9A-Z]{5}-){2}/i;

/** A badge, read from its beginning. */
export function isBadge(code) {
  return code.trim().toUpperCase().startsWith("BADGE");
}

/** A badge, or what may be the rest of one. */
export function mayBeBadge(code) {
  return isBadge(code) || GROUPS.test(code);
}
