// What was logged on this frame, newest first, and putting an own entry right by a second one.

import { button, h } from "./element.js";
import { page } from "./gas_screen.js";
import { savedWords } from "./result_screen.js";
import { wallClock } from "./clock.js";
import { QUARTERS, RUNS } from "./words.js";

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

/** Puts one own entry right: another frame, joint, run, quarter, or not at all; the first one stays readable. */
export function mendScreen(app) {
  const own = app.entries().filter((entry) => entry.who === app.person?.id && !["correction", "opened"].includes(entry.kind));
  const entry = own.find((each) => each.id === app.where.of) ?? own.findLast((each) => !app.where.joint || each.joint === app.where.joint);
  if (!entry) return page(app, "Nothing of yours to correct", h("p", {}, "Only your own entries are put right here; for others ask the quality lead."));
  const put = (change, reason) => async () => {
    await app.log({ kind: "correction", of: entry.id, ...(change ? { change } : { withdraw: true }), reason });
    app.go({ screen: "log", joint: app.where.joint });
  };
  const choice = (keyed, label, change, reason) => button({ class: "tile", "data-key": keyed }, put(change, reason), h("strong", {}, label));
  const open = (what, label) => button({ class: "tile", "data-key": `open-${what}` }, () => app.go({ ...app.where, screen: "mend", of: entry.id, what }), h("strong", {}, label));
  return page(app, `Put right: ${savedWords(entry)}`, h("p", {}, "The entry stays as it was; a second one beside it says what is right."),
    h("div", { class: "tiles" }, mendChoices(app, entry, choice, open)));
}

function mendChoices(app, entry, choice, open) {
  const { what } = app.where;
  const others = (list, now) => list.filter((each) => each !== now);
  if (what === "frame") return others(app.frames.map((frame) => frame.frame), entry.frame).map((frame) => choice(frame, `It was ${frame}`, { frame }, "wrong frame"));
  if (what === "joint") return others(app.frame.joints.map((joint) => joint.id), entry.joint).map((joint) => choice(joint, `It was ${joint}`, { joint }, "wrong joint"));
  if (what === "run") return others(RUNS.filter((run) => run !== "tack"), entry.run).map((run) => choice(run, `It was ${run}`, { run }, "wrong kind of run"));
  if (what === "quarters") return QUARTERS.map((quarter) => choice(quarter, `Only ${quarter.slice(1)} o’clock`, { quarters: [quarter] }, "wrong quarters"));
  const choices = [choice("withdraw", "It did not happen", null, "logged by mistake")];
  if (entry.frame && app.frames.length > 1) choices.push(open("frame", "Wrong frame"));
  if (entry.joint) choices.push(open("joint", "Wrong joint"));
  if (entry.kind === "pass") choices.push(open("run", "Wrong run"));
  if (entry.kind === "pass" || entry.kind === "tack") choices.push(open("quarters", "Wrong quarters"));
  return choices;
}

function detail(entry) {
  if (entry.kind === "look") return entry.answer === "graded" ? `grade ${entry.grade}, ${entry.zone}` : entry.answer;
  const values = Object.entries(entry.values ?? {}).filter(([, value]) => value.how !== "inherited");
  return values.slice(0, 3).map(([, value]) => `${value.value} ${value.unit}`).join(", ") || entry.words || entry.act || entry.line || "";
}

function nameOf(app, who) {
  return app.sheet.people.find((person) => person.id === who)?.name ?? who;
}
