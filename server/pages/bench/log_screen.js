// What was logged on this frame, newest first; an own entry can be put right from here.

import { button, h } from "./element.js";
import { page } from "./gas_screen.js";
import { savedWords } from "./result_screen.js";
import { wallClock } from "./clock.js";
import { withUnit } from "./words.js";

const SHOWN = 30;

/** The entries of this frame and bench, each with where it is; an own one can be put right. */
export function logScreen(app) {
  const here = app.entries().filter((entry) => !["correction", "opened"].includes(entry.kind) && (!entry.frame || entry.frame === app.frame?.frame)
    && (!app.where.joint || entry.joint === app.where.joint));
  const waiting = new Set(app.waiting.map((kept) => kept.id));
  const rows = here.slice(-SHOWN).reverse().map((entry) => h("li", { class: "logged" },
    h("span", { class: "logged-when" }, wallClock(app.sheet.zone, entry.happened)),
    h("span", { class: "logged-what" }, h("strong", {}, savedWords(entry)), ` ${detail(entry)}`),
    h("span", { class: "quiet" }, `${nameOf(app, entry.who)} · ${waiting.has(entry.id) ? "on this tablet" : "in the record"}`),
    entry.kind === "pass" ? button({ class: "further", "data-key": `machine-${entry.id}` }, () => app.go({ screen: "machine", of: entry.id, joint: entry.joint }), "Machine’s file") : null,
    entry.who === app.person?.id ? button({ class: "further", "data-key": `mend-${entry.id}` }, () => app.go({ screen: "mend", of: entry.id, joint: app.where.joint }), "Correct") : null));
  const ends = app.frame ? button({ class: "tile", "data-key": "open-ends" }, () => app.go({ screen: "open-ends" }), h("strong", {}, "End of shift: what is open")) : null;
  return page(app, app.where.joint ? `Logged on ${app.where.joint}` : `Logged on ${app.frame?.frame ?? "this bench"}`,
    ends, rows.length ? h("ul", { class: "logged-list" }, rows) : h("p", { class: "empty" }, "Nothing has been logged here yet."));
}

function detail(entry) {
  if (entry.kind === "look") return entry.answer === "graded" ? `grade ${entry.grade}, ${entry.zone}` : entry.answer;
  if (entry.kind === "sleeve") return entry.rod_ends ? `rod ends ${entry.rod_ends}` : "";
  if (entry.kind === "cylinder") return entry.off ? `${entry.off} came off${entry.off_values?.pressure ? ` at ${entry.off_values.pressure.value} bar` : ""}` : "";
  if (entry.kind === "bead") return `${entry.line}, ${entry.result}${Number.isInteger(entry.grade) ? `, grade ${entry.grade}` : ""}`;
  const values = Object.entries(entry.values ?? {}).filter(([, value]) => value.how !== "inherited");
  return values.slice(0, 3).map(([, value]) => withUnit(value.value, value.unit)).join(", ") || entry.words || entry.act || entry.line || "";
}

function nameOf(app, who) {
  return app.sheet.people.find((person) => person.id === who)?.name ?? who;
}
