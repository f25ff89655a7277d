// Putting an own entry right by a second one beside it: where it was, what it was, what was read, or that it was not.

import { button, h } from "./element.js";
import { page } from "./gas_screen.js";
import { padOf, problemWords, readValue } from "./pad.js";
import { missingOf } from "./missing.js";
import { savedWords } from "./result_screen.js";
import { capital, QUARTERS, quarterWords, RUNS, withUnit } from "./words.js";

/** Puts one own entry right: another frame, joint, run, quarter or reading, or not at all; the first one stays readable. */
export function mendScreen(app) {
  const own = app.entries().filter((entry) => entry.who === app.person?.id && !["correction", "opened"].includes(entry.kind));
  const entry = own.find((each) => each.id === app.where.of) ?? own.findLast((each) => !app.where.joint || each.joint === app.where.joint);
  if (!entry) return page(app, "Nothing of yours to correct", h("p", {}, "Only your own entries are put right here; for others ask the quality lead."));
  const put = (change, reason) => async () => {
    const gap = gapLoggedWith(app, entry);
    const [onward, { person, where: { joint } }] = [app.onward(), app];
    await app.log({ kind: "correction", of: entry.id, ...(change ? { change } : { withdraw: true }), reason });
    if (gap && (change?.frame || change?.joint)) await app.log({ kind: "correction", of: gap.id, change, reason }, person);
    onward(gap && !change ? { screen: "mend", of: gap.id, what: "gap", joint } : { screen: "log", joint });
  };
  if (app.where.what === "gap") return gapPart(app, entry, put);
  if (app.where.what === "reading" && entry.values?.[app.where.reading]) return readingPart(app, entry, put);
  return page(app, `Put right: ${savedWords(entry)}`, h("p", {}, "The entry stays as it was; a second one beside it says what is right."),
    app.where.what === "quarters" ? quartersPart(app, entry, put) : h("div", { class: "tiles" }, choices(app, entry, put)));
}

/** The gap that was logged with a tack by the same tap, as long as it stands beside it. */
function gapLoggedWith(app, { kind, id, frame, joint }) {
  const justBefore = id.replace(/[0-9]+$/, (count) => String(Number(count) - 1));
  const before = kind === "tack" ? app.entries().find((each) => each.id === justBefore) : null;
  return before?.kind === "gap" && before.frame === frame && before.joint === joint ? before : null;
}

/** The tack did not happen; only the welder knows whether the gap logged with it was measured. */
function gapPart(app, entry, put) {
  const { value, unit } = entry.values.gap;
  return page(app, `${entry.joint}: was the gap measured?`, h("p", {}, `The tack is taken back. A gap of ${withUnit(value, unit)} was logged with it.`),
    h("div", { class: "tiles" },
      button({ class: "tile", "data-key": "gap-stands" }, () => app.go({ screen: "log", joint: app.where.joint }), h("strong", {}, "Yes, it stands"), h("span", {}, `${withUnit(value, unit)}, measured`)),
      button({ class: "tile", "data-key": "gap-back" }, put(null, "logged with a tack that did not happen"), h("strong", {}, "No, take it back too"), h("span", {}, "the gap is asked again"))));
}

function choices(app, entry, put) {
  const { what } = app.where;
  const choice = (keyed, label, change, reason) => button({ class: "tile", "data-key": keyed }, put(change, reason), h("strong", {}, label));
  const others = (list, now) => list.filter((each) => each !== now);
  if (what === "frame") return others(app.frames.map((frame) => frame.frame), entry.frame).map((frame) => choice(frame, `It was ${frame}`, { frame }, "wrong frame"));
  if (what === "joint") return others(app.frame.joints.map((joint) => joint.id), entry.joint).map((joint) => choice(joint, `It was ${joint}`, { joint }, "wrong joint"));
  if (what === "run") return others(RUNS.filter((run) => run !== "tack"), entry.run).map((run) => choice(run, `It was ${run}`, { run }, "wrong kind of run"));
  if (what === "reading") return readings(entry).map((reading) => open(app, entry, { what, reading }, capital(wordsOf(app, reading)), withUnit(entry.values[reading].value, entry.values[reading].unit)));
  const other = button({ class: "tile", "data-key": "somebody-else" }, put(null, "somebody else did it, and logs it"), h("strong", {}, "Somebody else did it"), h("span", {}, "taken back here; they log it, as earlier"));
  return [choice("withdraw", "It did not happen", null, "logged by mistake"), other, ...ways(app, entry)];
}

/** The ways in which an entry of this kind can be wrong. */
function ways(app, entry) {
  const ofArc = ["pass", "tack", "removed"].includes(entry.kind);
  return [
    entry.kind === "problem" ? button({ class: "tile", "data-key": "say-what" }, () => app.go({ screen: "problem", of: entry.id, joint: entry.joint }), h("strong", {}, "Say what it was")) : null,
    ...missingOf(app, entry).map((line) => button({ class: "tile", "data-key": `late-${line.reading}` }, () => app.go({ screen: "told-late", of: entry.id, reading: line.reading }),
      h("strong", {}, `Tell the ${line.words}`), h("span", {}, "asked and not told then"))),
    readings(entry).length ? open(app, entry, { what: "reading" }, "Wrong reading") : null,
    entry.frame && app.frames.length > 1 ? open(app, entry, { what: "frame" }, "Wrong frame") : null,
    entry.joint ? open(app, entry, { what: "joint" }, "Wrong joint") : null,
    entry.kind === "pass" ? open(app, entry, { what: "run" }, "Wrong run") : null,
    ofArc ? open(app, entry, { what: "quarters" }, "Wrong quarters") : null,
  ].filter(Boolean);
}

function open(app, entry, to, label, small = "") {
  return button({ class: "tile", "data-key": `open-${to.reading ?? to.what}` }, () => app.go({ joint: app.where.joint, screen: "mend", of: entry.id, ...to }), h("strong", {}, label), small ? h("span", {}, small) : null);
}

/** Each quarter is one tap on or off, and what is left is logged. */
function quartersPart(app, entry, put) {
  const chosen = app.where.quarters ?? entry.quarters ?? QUARTERS;
  const toggled = (quarter) => QUARTERS.filter((each) => (each === quarter) !== chosen.includes(each));
  return h("div", {}, h("div", { class: "choices", role: "group", "aria-label": "Quarters" }, QUARTERS.map((quarter) => button(
    { class: "choice", "data-key": quarter, "aria-pressed": String(chosen.includes(quarter)) },
    () => { app.where = { ...app.where, quarters: toggled(quarter) }; app.draw(); }, `${quarter.slice(1)} o’clock`))),
  button({ class: "log", "data-key": "log", disabled: chosen.length === 0 }, put({ quarters: chosen }, "wrong quarters"), `It was ${quarterWords(chosen)}`));
}

/** A reading keyed in wrongly: the right one beside it, known the way the first one was. */
function readingPart(app, entry, put) {
  const { reading, text = "" } = app.where;
  const known = entry.values[reading];
  const { value, problem } = readValue(text, app.sheet.quantities[reading]);
  const words = wordsOf(app, reading);
  const typed = (typedSoFar) => { app.where = { ...app.where, text: typedSoFar }; app.draw(); };
  return page(app, `Put right: ${words}`, h("div", { class: "two" },
    h("div", {}, h("p", {}, `Logged: ${withUnit(known.value, known.unit)}. It stays as it was; a second entry beside it says what is right.`),
      button({ class: "log", "data-key": "log", disabled: value === null }, put({ values: { [reading]: { ...known, value } } }, "wrong reading"),
        problem ? problemWords(problem) : value === null ? `Key in the ${words}` : `It was ${withUnit(value, known.unit)}`)),
    padOf({ title: capital(words), unit: known.unit, value: text, negative: Number(app.sheet.quantities[reading]?.[1] ?? 0) < 0 }, typed, problem)));
}

/** What was read or keyed in with this entry; what is inherited is put right where it was told. */
function readings(entry) {
  return Object.keys(entry.values ?? {}).filter((reading) => entry.values[reading].how !== "inherited");
}

function wordsOf(app, reading) {
  return app.sheet.quantities[reading]?.[3] ?? reading.replaceAll("_", " ");
}
