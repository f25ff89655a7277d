// One joint: which run, which quarters, what is asked, and one large button that logs it.

import { button, h } from "./element.js";
import { gasNote } from "./gas_state.js";
import { pauseNote, purgeNote } from "./guide.js";
import { freshVerdicts, judgedReadings, logRun, sleeveVerdicts } from "./log_pass.js";
import { padOf, problemWords, readValue } from "./pad.js";
import { blockedRun } from "./next_steps.js";
import { isWelded, quarterWord } from "./progress.js";
import { ring } from "./picture.js";
import { resultScreen } from "./result_screen.js";
import { redLight, wordMark } from "./verdicts.js";
import { capital, limitsWords, QUARTERS, quarterWords, RUNS, withUnit } from "./words.js";

/** The whole screen of one joint. */
export function jointScreen(app) {
  const joint = app.joint;
  app.heading = { title: joint.title, name: joint.id, back: () => app.go({ screen: "frame" }) };
  if (app.result) return resultScreen(app);
  const draft = app.draft(joint);
  const { card, known, readings, shift } = app.asked(joint, draft);
  const blocked = blockedRun(app.frame, joint, draft.run, app.progress());
  const open = readings.find((line) => line.reading === draft.asking) ?? readings.find((line) => !given(app, draft, line)) ?? readings.at(-1);
  const told = [...judgedReadings(app, draft, readings.filter((line) => given(app, draft, line))), ...freshVerdicts(app, draft, card, known), ...sleeveVerdicts(app, draft, card)];
  const light = redLight(told, card);
  const early = purgeNote(app, joint, draft, card);
  const gas = gasNote(app);
  return h("div", { class: `joint-screen ${open ? "" : "no-pad"} ${light ? "with-light" : ""}` },
    h("div", { class: "joint-ring" }, quarterBoard(app, joint, draft), furtherRow(app, joint, draft)),
    h("div", { class: "joint-top" }, light, h("div", { class: "joint-work" }, runRow(app, draft), attemptNote(draft), lateNote(draft), blockedNote(blocked), gas, early, cleanNote(app, draft, known), pauseNote(app, joint, draft),
      shiftRow(app, shift), asksList(app, draft, readings, open), contextRow(app, joint, draft, card))),
    open ? padFor(app, draft, open) : null,
    logButton(app, joint, draft, readings, shift, card, blocked.length > 0 || early !== null || gas !== null));
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
  const one = (quarter) => button({
    class: `quarter quarter-${quarter}`, "data-key": quarter,
    "aria-pressed": String(draft.quarters.includes(quarter)), disabled: !joint.quartered,
  }, () => toggle(quarter), h("strong", {}, quarter.slice(1)), h("span", {}, quarterWord(joint, progress, quarter)),
  h("span", { class: "now" }, draft.quarters.includes(quarter) ? "to log" : ""));
  return h("div", { class: "quarters" },
    h("svg", { class: "ring", viewBox: "0 0 100 100", "aria-hidden": "true" }, ...ring(joint, progress, 50, 44)),
    QUARTERS.map(one),
    button({ class: "quarter quarter-all", "data-key": "all", "aria-pressed": String(draft.quarters.length === 4) },
      () => app.change({ quarters: [...QUARTERS] }), "All four"));
}

/** What is inherited and shown: the sleeve is one tap to change, the rest is changed where it changes. */
function contextRow(app, joint, draft, card) {
  const sleeve = app.sleeves.find((each) => each.sleeve === draft.sleeve);
  const shown = sleeve ? [sleeve.sleeve, `${sleeve.filler_class} ${sleeve.rod_mm} mm`] : ["No filler"];
  const cylinder = (use) => app.line(use)?.cylinder ?? "none on";
  const setup = app.purge ? `${app.purge.setup}: on` : "Purge not on";
  const tap = (name, small, act, ...words) => button({ class: "context-tap", "data-key": name }, act, h("span", { class: "quiet" }, small), words.map((each) => h("strong", {}, each)));
  return h("div", { class: "context" },
    tap("sleeve", "Rod: tap to change", () => app.change({ sleeve: nextSleeve(app, draft) }), ...shown),
    tap("gas", setup, () => app.go({ screen: "gas" }), `Torch ${cylinder("torch")}`, `Purge ${cylinder("purge")}`),
    tap("cautions", limitsWords(card, app.today), () => app.go({ screen: "cautions", joint: joint.id }), card ? `${card.procedure} rev ${card.revision}` : "None in force"));
}

/** At the first run of a shift the machine and the flows are told once, on a sheet of their own. */
function shiftRow(app, shift) {
  if (shift.length === 0) return null;
  return button({ class: "shift-row", "data-key": "shift" }, () => app.go({ screen: "shift", joint: app.joint.id }),
    h("strong", {}, `First of the shift: ${shift.length} ${shift.length === 1 ? "setting" : "settings"} to tell`), h("span", {}, "tap to tell them once"));
}

function nextSleeve(app, draft) {
  const choices = [...app.sleeves.map((each) => each.sleeve), "none"];
  return choices[(choices.indexOf(draft.sleeve) + 1) % choices.length];
}

function asksList(app, draft, readings, open) {
  if (readings.length === 0) return h("p", { class: "nothing-asked" }, "No reading is asked for this run. Log it when it is done.");
  return h("div", { class: "asks" }, readings.map((line) => {
    const [verdict] = line.unjudged ? [null] : judgedReadings(app, draft, [line]);
    const has = given(app, draft, line);
    return button({ class: "ask", "data-key": `ask-${line.reading}`, "aria-pressed": String(line === open) }, () => app.change({ asking: line.reading }),
      h("span", {}, capital(line.words)), h("strong", {}, draft.values[line.reading] ? withUnit(draft.values[line.reading], line.unit) : line.before === undefined ? "not read yet" : `was ${withUnit(line.before, line.unit)}: read it again`),
      has && verdict ? wordMark(verdict) : null);
  }));
}

function padFor(app, draft, line) {
  const text = draft.values[line.reading] ?? "";
  const put = (value) => app.change({ asking: line.reading, values: { ...draft.values, [line.reading]: value } });
  const { problem } = readValue(text, app.sheet.quantities[line.reading]);
  return padOf({ title: capital(line.words), unit: line.unit, value: text }, put, problem);
}

function furtherRow(app, joint, draft) {
  const to = (screen, label) => button({ class: "further", "data-key": screen }, () => app.go({ screen, joint: joint.id }), label);
  const progress = app.progress().joints[joint.id];
  return h("div", { class: "furthers" }, to("look", "Look"), to("photo", "Photo"), progress.finished ? to("release", "Release") : to("clean", "Clean"), to("earlier", "Earlier"),
    progress.tacked || isWelded(progress) ? to("cut-out", "Cut out") : null);
}

/** A seam that is made anew says so, and a repair who has to have signed before its arc. */
function attemptNote({ attempt, run }) {
  if (attempt === 1) return null;
  return h("p", { class: "late-note" }, h("strong", {}, `Attempt ${attempt}. `), run === "repair" ? "A repair is signed for at the desk before its first arc." : "What was logged before stays with the attempt it belongs to.");
}

function lateNote({ agoMin, lateReason }) {
  return agoMin ? h("p", { class: "late-note" }, `Logged as ${agoMin} min ago, late: ${lateReason}`) : null;
}

function blockedNote(blocked) {
  if (blocked.length === 0) return null;
  return h("div", { class: "blocked-note" }, blocked.map((words) => h("p", {}, h("strong", {}, "Not yet. "), capital(words), ".")),
    h("p", {}, "Done already? Log it: it is kept, and flagged."));
}

/** Yesterday’s clean is not today’s: said where the shop has set how long a clean lasts. */
function cleanNote(app, draft, known) {
  const longest = app.sheet.clean_to_arc_h;
  if (!longest || draft.run === "tack" || known.cleanedHours === null || known.cleanedHours <= longest) return null;
  return h("div", { class: "blocked-note" }, h("p", {}, h("strong", {}, "Clean again. "), `Last cleaned ${Math.round(known.cleanedHours)} h ago; the shop allows ${longest} h to the arc.`));
}

function logButton(app, joint, draft, readings, shift, card, blocked) {
  const missing = readings.filter((line) => line.before === undefined && !given(app, draft, line)).length + shift.length;
  const quarters = draft.quarters.length ? quarterWords(draft.quarters) : "no quarter chosen";
  const note = missing ? `${missing} asked and not read: will stand as unknown` : blocked ? "will be flagged" : "";
  const problem = wrongNumber(app, draft, readings);
  if (problem) return button({ class: "log", "data-key": "log", disabled: true }, () => null, problemWords(problem));
  return button({ class: "log", "data-key": "log", disabled: draft.quarters.length === 0 },
    async () => {
      const here = app.where;
      const result = await logRun(app, joint, draft, readings, card);
      // Who scanned the next joint while this was being saved is there already.
      if (app.where === here) app.result = result;
      app.draw({ top: true });
    },
    h("span", {}, `Log ${draft.run}, ${quarters}`), note ? h("small", {}, note) : null);
}

/** A number that cannot be is no reading yet and is not dropped in silence: what is wrong with the first one, or null. */
function wrongNumber(app, draft, readings) {
  return readings.map(({ reading }) => readValue(draft.values[reading], app.sheet.quantities[reading]).problem).find(Boolean) ?? null;
}

function given(app, draft, line) {
  return readValue(draft.values[line.reading], app.sheet.quantities[line.reading]).value !== null;
}
