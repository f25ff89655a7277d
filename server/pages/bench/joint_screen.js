// One joint: which run, which quarters, what is asked, and one large button that logs it.

import { button, h } from "./element.js";
import { judgedReadings, logRun, sleeveVerdicts } from "./log_pass.js";
import { numberPad, readValue } from "./pad.js";
import { blockedRun } from "./next_steps.js";
import { quarterWord } from "./progress.js";
import { ring } from "./picture.js";
import { resultScreen } from "./result_screen.js";
import { redLight, wordMark } from "./verdicts.js";
import { capital, QUARTERS, quarterWords, RUNS, withUnit } from "./words.js";

/** The whole screen of one joint. */
export function jointScreen(app) {
  if (app.result) return resultScreen(app);
  const joint = app.joint;
  const draft = app.draft(joint);
  const { card, known, readings } = app.asked(joint, draft);
  const blocked = blockedRun(app.frame, joint, draft.run, app.progress());
  const open = readings.find((line) => line.reading === draft.asking) ?? readings.find((line) => !given(app, draft, line)) ?? readings.at(-1);
  const light = redLight([...judgedReadings(app, draft, readings.filter((line) => given(app, draft, line))), ...sleeveVerdicts(app, draft, card)], card);
  return h("div", { class: `joint-screen ${open ? "" : "no-pad"}` },
    h("div", { class: "joint-head" }, button({ class: "back", "data-key": "back" }, () => app.go({ screen: "frame" }), "‹ Frame"),
      h("h1", { tabindex: "-1" }, h("span", { class: "joint-id" }, joint.id), " ", joint.title), cardChip(card)),
    h("div", { class: "joint-ring" }, quarterBoard(app, joint, draft), contextList(app, joint, draft, card)),
    h("div", { class: "joint-work" }, runRow(app, draft), blockedNote(blocked), light ?? asksList(app, draft, readings, open), furtherRow(app, joint, draft)),
    open ? padFor(app, draft, open, known.before(card?.procedure)) : null,
    logButton(app, joint, draft, readings, card, blocked));
}

function runRow(app, draft) {
  return h("div", { class: "runs", role: "group", "aria-label": "What was done" }, RUNS.map((run) => button(
    { class: "run", "data-key": `run-${run}`, "aria-pressed": String(draft.run === run) },
    () => app.change({ run, quarters: undefined, sleeve: undefined }), capital(run))));
}

/** Four quarter buttons round a ring; all four is one tap. */
function quarterBoard(app, joint, draft) {
  const progress = app.progress().joints[joint.id];
  const toggle = (quarter) => {
    const chosen = draft.quarters.includes(quarter) ? draft.quarters.filter((each) => each !== quarter) : [...draft.quarters, quarter];
    app.change({ quarters: QUARTERS.filter((each) => chosen.includes(each)) });
  };
  const one = (quarter) => h("button", {
    type: "button", class: `quarter quarter-${quarter}`, "data-key": quarter, onclick: () => toggle(quarter),
    "aria-pressed": String(draft.quarters.includes(quarter)), disabled: !joint.quartered,
  }, h("strong", {}, quarter.slice(1)), h("span", {}, quarterWord(joint, progress, quarter)),
  h("span", { class: "now" }, draft.quarters.includes(quarter) ? "now" : ""));
  return h("div", { class: "quarters" },
    h("svg", { class: "ring", viewBox: "0 0 100 100", "aria-hidden": "true" }, ...ring(joint, progress, 50, 44)),
    QUARTERS.map(one),
    button({ class: "quarter quarter-all", "data-key": "all", "aria-pressed": String(draft.quarters.length === 4) },
      () => app.change({ quarters: [...QUARTERS] }), "All four"));
}

/** What is inherited and shown: the sleeve is one tap to change, the rest is changed where it changes. */
function contextList(app, joint, draft, card) {
  const sleeve = app.sleeves.find((each) => each.sleeve === draft.sleeve);
  const shown = sleeve ? `${sleeve.sleeve} · ${sleeve.filler_class} ${sleeve.rod_mm} mm` : "no filler";
  const line = (use) => { const found = app.line(use); return found ? `${found.line}: ${found.cylinder ?? "no cylinder"}` : "–"; };
  const setup = app.purge ? `${app.purge.setup}, purge on` : `${joint.setup ?? "no set-up"}, purge not logged on`;
  return h("div", { class: "context" },
    button({ class: "context-tap", "data-key": "sleeve" }, () => app.change({ sleeve: nextSleeve(app, draft) }), h("span", { class: "quiet" }, "Rod sleeve, tap to change"), h("strong", {}, shown)),
    button({ class: "context-tap", "data-key": "gas" }, () => app.go({ screen: "gas" }), h("span", { class: "quiet" }, "Gas, tap to change"),
      h("strong", {}, `Torch ${line("torch")}`), h("strong", {}, `Purge ${line("purge")}`), h("span", {}, setup)),
    button({ class: "context-tap", "data-key": "cautions" }, () => app.go({ screen: "cautions", joint: joint.id }), h("span", { class: "quiet" }, `Cautions and limits`), h("strong", {}, card ? `${card.procedure} rev ${card.revision}` : "no card in force")));
}

function nextSleeve(app, draft) {
  const choices = [...app.sleeves.map((each) => each.sleeve), "none"];
  return choices[(choices.indexOf(draft.sleeve) + 1) % choices.length];
}

function asksList(app, draft, readings, open) {
  if (readings.length === 0) return h("p", { class: "nothing-asked" }, "Nothing is asked for this run. Log it when it is done.");
  return h("div", { class: "asks" }, readings.map((line) => {
    const [verdict] = line.unjudged ? [null] : judgedReadings(app, draft, [line]);
    const has = given(app, draft, line);
    return h("button", { type: "button", class: "ask", "data-key": `ask-${line.reading}`, "aria-pressed": String(line === open), onclick: () => app.change({ asking: line.reading }) },
      h("span", {}, capital(line.words)), h("strong", {}, draft.values[line.reading] ? withUnit(draft.values[line.reading], line.unit) : "not read yet"),
      has && verdict ? wordMark(verdict) : null);
  }));
}

function padFor(app, draft, line, before) {
  const text = draft.values[line.reading] ?? "";
  const put = (value) => app.change({ asking: line.reading, values: { ...draft.values, [line.reading]: value } });
  const { problem } = readValue(text, app.sheet.quantities[line.reading]);
  const carried = ["set", "typed"].includes(line.how) && before[line.reading] && !text ? before[line.reading] : null;
  return h("div", { class: "joint-pad" }, numberPad({ title: capital(line.words), unit: line.unit, value: text }, put),
    problem ? h("p", { class: "pad-problem", role: "alert" }, problem) : null,
    carried ? button({ class: "carried", "data-key": "carried" }, () => put(carried), `Still set to ${withUnit(carried, line.unit)}`) : null);
}

function furtherRow(app, joint, draft) {
  const to = (screen, label) => button({ class: "further", "data-key": screen }, () => app.go({ screen, joint: joint.id }), label);
  return h("div", { class: "furthers" }, to("look", "Look"), to("clean", "Clean"), to("release", "Release"), to("earlier", "It was earlier"), to("mend", "Correct"),
    draft.agoMin ? h("p", { class: "late-note" }, `Logged as ${draft.agoMin} min ago, late: ${draft.lateReason}`) : null);
}

function blockedNote(blocked) {
  if (blocked.length === 0) return null;
  return h("div", { class: "blocked-note" }, h("strong", {}, "Not yet."), blocked.map((words) => h("p", {}, capital(words), ".")),
    h("p", {}, "If it has been done already, log it all the same: it is kept and flagged."));
}

function logButton(app, joint, draft, readings, card, blocked) {
  const missing = readings.filter((line) => !given(app, draft, line)).length;
  const quarters = draft.quarters.length ? quarterWords(draft.quarters) : "no quarter chosen";
  const note = missing ? `${missing} asked and not read: will stand as unknown` : blocked.length ? "will be flagged" : "";
  return button({ class: "log", "data-key": "log", disabled: draft.quarters.length === 0 },
    async () => { app.result = await logRun(app, joint, draft, readings, card); app.draw({ top: true }); },
    h("span", {}, `Log ${draft.run}, ${quarters}`), note ? h("small", {}, note) : null);
}

function cardChip(card) {
  return h("p", { class: "card-chip" }, card ? `${card.procedure} rev ${card.revision} in force` : "No procedure in force: nothing is judged here");
}

function given(app, draft, line) {
  return readValue(draft.values[line.reading], app.sheet.quantities[line.reading]).value !== null;
}
