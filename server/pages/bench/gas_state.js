// What is known of a gas line by its test beads: good, failed, or none since its cylinder came on.

import { h } from "./element.js";
import { shopDay, wallClock } from "./clock.js";

/** The bead run last on a line, however it turned out, or null. */
function lastBead(app, line) {
  return app.entries().findLast((entry) => entry.kind === "bead" && entry.line === line.line) ?? null;
}

/** The lines whose last bead failed: nothing is welded with them until one is good. */
export function failedLines(app) {
  return app.lines.filter((line) => lastBead(app, line)?.result === "failed");
}

/** The lines whose cylinder came on and was not tried, where the shop asks for a bead at a change. */
export function untriedLines(app) {
  return app.lines.filter((line) => app.sheet.beads_asked?.[line.use] && line.cylinder && (lastBead(app, line)?.happened ?? "") < line.since);
}

/** The torch lines welded with today and not tried today, where the shop asks for a bead each shift. */
export function untriedToday(app) {
  const today = (entry) => shopDay(app.sheet.zone, new Date(entry.happened)) === app.today;
  return app.lines.filter((line) => line.use === "torch" && app.sheet.beads_asked?.shift && !(lastBead(app, line) && today(lastBead(app, line)))
    && app.entries().some((entry) => entry.kind === "pass" && entry.torch_line === line.line && today(entry)));
}

/** In a few words how the line's last bead was, for its tile. */
export function beadWords(app, line) {
  const last = lastBead(app, line);
  if (last?.result === "failed") return "the last one failed";
  if (untriedLines(app).includes(line)) return `none since ${line.cylinder} came on`;
  if (!last) return "none known here";
  const day = shopDay(app.sheet.zone, new Date(last.happened));
  return `${last.result} ${day === app.today ? wallClock(app.sheet.zone, last.happened) : day}`;
}

/** Before an arc: a line that stands still, or whose new cylinder nobody has tried. */
export function gasNote(app) {
  const failed = failedLines(app);
  const words = [...failed.map(({ line }) => `${line}: its last test bead failed; it stands still until one is good`),
    ...untriedLines(app).filter((line) => !failed.includes(line)).map(({ line, cylinder }) => `${line}: no test bead since ${cylinder} came on`)];
  return words.length ? h("div", { class: "blocked-note" }, words.map((each) => h("p", {}, h("strong", {}, "Not yet. "), each, "."))) : null;
}
