// A double click or a held Enter sends a form once.
import { free, mayGo } from "./may_go.js";

addEventListener("submit", (sent) => {
  const form = sent.target;
  if (sent.defaultPrevented || form.getAttribute("method") !== "post") return;
  if (!mayGo(form)) sent.preventDefault();
});
// What is shown this once, a badge or an invitation, is not made anew by loading its page again.
const { reload } = document.getElementById("work").dataset;
if (reload) history.replaceState(null, "", reload);
// Come back to, a page that the browser kept as it was may be sent from.
addEventListener("pageshow", () => document.querySelectorAll("form[aria-busy]").forEach(free));
