// Whether a form may be sent: not again while its answer is awaited. What is known of it stands at the form itself.

const WAIT_MS = 8000;

/** Lets a form be sent again. */
export const free = (form) => form.removeAttribute("aria-busy");

/** Says whether a form may be sent now; whoever stopped the browser may send it anew after a while. */
export function mayGo(form) {
  if (form.hasAttribute("aria-busy")) return false;
  form.setAttribute("aria-busy", "true");
  setTimeout(() => free(form), WAIT_MS);
  return true;
}
