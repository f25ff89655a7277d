// The shorter screens of a joint and of a stop: clean, geometry, earlier, cautions, and what the problem was.

import { button, h } from "./element.js";
import { page } from "./gas_screen.js";
import { padOf, problemWords, readValue } from "./pad.js";
import { measuredValue } from "./log_pass.js";
import { judged, redLight, verdictRow } from "./verdicts.js";
import { allowedWords, capital, cautionParts, TROUBLES } from "./words.js";

const METHODS = ["wiped with solvent", "brushed and wiped", "pickled and rinsed"];
const MOMENTS = ["before the arc", "at the arc", "after the arc"];
const AGO = [5, 15, 30, 60, 120, 240];
const WHY_LATE = ["gloves on, hands busy", "tablet not at hand", "forgot to tap", "tablet was flat"];

/** The joint was cleaned: one tap for how; the clock to the arc starts here. */
export function cleanScreen(app) {
  const log = (method) => async () => {
    const [onward, joint] = [app.onward(), app.joint.id];
    await app.log({ kind: "clean", frame: app.frame.frame, joint, attempt: app.progress().joints[joint].attempt, method });
    onward({ screen: "joint", joint });
  };
  const card = app.card(app.joint, app.draft(app.joint).run);
  return page(app, `${app.joint.id}: how was it cleaned?`, card ? h("ul", { class: "own-words" }, card.cleaning.map((words) => h("li", {}, words))) : null, h("div", { class: "tiles" }, METHODS.map((method) => button(
    { class: "tile", "data-key": method }, log(method), h("strong", {}, capital(method))))));
}

/** A geometry check on the table: the deviation read, judged against the design's own limit. */
export function geometryScreen(app) {
  const check = app.frame.geometry.find((each) => each.id === app.where.joint);
  const text = app.where.text ?? "";
  const { value, problem } = readValue(text, app.sheet.quantities.deviation);
  const line = { name: "deviation", words: check.title, unit: "mm", low: `-${check.limit_mm}`, high: check.limit_mm, allowed: [], uncertainty: check.uncertainty, source: check.source, beyond: "Do not go on; set the frame or show the quality lead.", moment: "" };
  const verdict = value === null ? null : judged(line, value);
  const log = async () => {
    const onward = app.onward();
    const values = { deviation: measuredValue(app, { reading: "deviation", how: "read" }, value) };
    await app.log({ kind: "geometry", frame: app.frame.frame, check: check.id, result: verdict.word === "outside" ? "failed" : "good", values });
    onward({ screen: "frame" });
  };
  return page(app, `${check.id}: ${check.title}`, h("div", { class: "two" },
    h("div", {}, h("p", {}, `Allowed: ${check.limit_mm} mm either way. Source: ${check.source}.`), verdict ? redLight([verdict], null) ?? verdictRow(verdict) : null,
      button({ class: "log", "data-key": "log", disabled: value === null }, log, problem ? problemWords(problem) : value === null ? "Key in the deviation" : `Log ${verdict.word === "outside" ? "failed" : "good"}, ${value} mm`)),
    padOf({ title: "Largest deviation read", unit: "mm", value: text, negative: true }, (typed) => { app.where = { ...app.where, text: typed }; app.draw(); }, problem)));
}

/** It happened before now: how long ago, and why it is logged late; both are facts. */
export function earlierScreen(app) {
  const { agoMin } = app.where;
  const choose = (minutes) => () => app.go({ screen: "earlier", joint: app.joint.id, agoMin: minutes });
  const done = (reason) => () => {
    app.change({ agoMin: agoMin, lateReason: reason });
    app.go({ screen: "joint", joint: app.joint.id });
  };
  const now = () => { app.change({ agoMin: undefined, lateReason: undefined }); app.go({ screen: "joint", joint: app.joint.id }); };
  return page(app, agoMin ? "Why is it logged late?" : "When was it done?", h("div", { class: "tiles" },
    agoMin ? WHY_LATE.map((reason) => button({ class: "tile", "data-key": reason }, done(reason), h("strong", {}, capital(reason))))
      : [button({ class: "tile", "data-key": "now" }, now, h("strong", {}, "Just now")),
        AGO.map((minutes) => button({ class: "tile", "data-key": `ago-${minutes}` }, choose(minutes), h("strong", {}, minutes < 60 ? `${minutes} minutes ago` : `${minutes / 60} ${minutes === 60 ? "hour" : "hours"} ago`)))]));
}

/** What the problem was; the stop itself is kept already. */
export function problemScreen(app) {
  const { joint, of } = app.where;
  const next = joint ? { screen: "joint", joint } : { screen: "frame" };
  const tell = (what) => async () => {
    const onward = app.onward();
    if (what === "re-strike" && app.joint) app.change({ restrikes: app.draft(app.joint).restrikes + 1 });
    await app.log({ kind: "correction", of, change: { what, words: TROUBLES[what].toLowerCase() }, reason: "what the stop was about" });
    onward(next);
  };
  const mistaken = async () => {
    const onward = app.onward();
    await app.log({ kind: "correction", of, withdraw: true, reason: "the stop was tapped by mistake" });
    onward(next);
  };
  return page(app, "Stopped, and kept. What was it?", h("p", {}, "Hold the gas. Say what it was now, or later under “Logged”."),
    h("div", { class: "tiles" }, Object.entries(TROUBLES).map(([what, words]) => button({ class: "tile", "data-key": what }, tell(what), h("strong", {}, words))),
      button({ class: "tile", "data-key": "mistaken" }, mistaken, h("strong", {}, "Nothing: tapped by mistake"))));
}

/** The limit card in the order of the work, with the cautions where they belong and whose word they are. */
export function cautionsScreen(app) {
  const card = app.card(app.joint, app.draft(app.joint).run);
  if (!card) return page(app, "No procedure is in force for this joint", h("p", {}, "Ask the quality lead before you strike the arc."));
  const cautions = card.cautions.map(cautionParts);
  return page(app, `${card.procedure} rev ${card.revision}, from ${card.valid_from}`, MOMENTS.map((moment) => h("section", { class: "moment" },
    h("h2", {}, capital(moment)), h("div", { class: "halves" },
      h("div", {}, ownWords(card, moment),
        h("ul", { class: "card-lines" }, card.lines.filter((line) => line.moment === moment).map((line) => h("li", {}, h("strong", {}, capital(line.words)), ` ${allowedWords(line)}`)))),
      h("div", {}, cautions.filter(({ where }) => where === moment).map(({ words, authority }) => h("p", { class: "caution" }, h("strong", {}, "Caution. "), words, " ", h("span", {}, authority))))))),
  cautions.filter(({ where }) => !where).map(({ words }) => h("p", {}, words)));
}

/** The procedure’s own words on cleaning and technique: the order of quarters and the pause stand there, if anywhere. */
function ownWords(card, moment) {
  const words = { "before the arc": card.cleaning, "at the arc": card.technique }[moment] ?? [];
  return words.length ? h("ul", { class: "own-words" }, words.map((each) => h("li", {}, each))) : null;
}
