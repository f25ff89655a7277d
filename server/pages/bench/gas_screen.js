// Gas and rods: the purge, cylinders on lines, sleeves open at the bench, and the test bead that qualifies a line.

import { button, h } from "./element.js";
import { purgePanel } from "./guide.js";
import { measuredValue, measuredValues } from "./log_pass.js";
import { padOf, problemWords, readValue } from "./pad.js";
import { lineOf } from "./asks.js";
import { beadWords, failedLines } from "./gas_state.js";
import { swatchBoard } from "./swatches.js";
import { judged, redLight, verdictRow } from "./verdicts.js";
import { nextSteps } from "./next_steps.js";
import { cautionParts, UNREAD_LABEL } from "./words.js";

/** Everything at this bench that is not a joint, as large tiles. */
export function gasScreen(app) {
  const to = (screen, extra) => () => app.go({ screen, ...extra });
  return page(app, "Gas and rods", failedLines(app).map(standStill),
    h("div", { class: "tiles" },
      button({ class: "tile", "data-key": "purge" }, to("purge"), h("strong", {}, "Purge"), h("span", {}, app.purge ? `on, ${app.purge.setup}` : "not logged on")),
      app.lines.map((line) => button({ class: "tile", "data-key": `line-${line.line}` }, to("cylinder", { line: line.line }),
        h("strong", {}, `Change cylinder, ${line.use} line`), h("span", {}, `${line.line}: ${line.cylinder ?? "none"} on`))),
      app.lines.map((line) => button({ class: "tile", "data-key": `bead-${line.line}` }, to("bead", { line: line.line }),
        h("strong", {}, `Test bead, ${line.use} line`), h("span", {}, `${line.line}: ${beadWords(app, line)}`))),
      button({ class: "tile", "data-key": "scan" }, to("scan"), h("strong", {}, "Scan or type a code"), h("span", {}, "frame, sleeve, cylinder")),
      button({ class: "tile", "data-key": "open-sleeve" }, to("sleeve"), h("strong", {}, "Open a sleeve"), h("span", {}, "from stock")),
      app.sleeves.length ? button({ class: "tile", "data-key": "read-ends" }, to("rod-ends"), h("strong", {}, "Read rod ends"), h("span", {}, "of a sleeve open here")) : null,
      app.sleeves.map((sleeve) => button({ class: "tile", "data-key": `close-${sleeve.sleeve}` }, async () => {
        await app.log({ kind: "sleeve", sleeve: sleeve.sleeve, bench: app.sheet.bench.id, act: "closed" });
        app.draw();
      }, h("strong", {}, `Close ${sleeve.sleeve}`), h("span", {}, `${sleeve.filler_class} ${sleeve.rod_mm} mm, open here`)))));
}

/** A failed bead stops its line: said large wherever the line is looked after, with what comes next. */
function standStill(line) {
  return h("section", { class: "red-light", role: "alert" }, h("h2", {}, h("span", { "aria-hidden": "true" }, "■ "), `${line.line} stands still`),
    h("p", { class: "beyond-value" }, `The last test bead on ${line.line} failed, with cylinder ${line.cylinder ?? "none"}.`),
    h("p", { class: "beyond-do" }, "Weld nothing with it. Look at hose and cup, change the cylinder, run a bead again; tell the quality lead what was welded since the last good one."),
    h("p", { class: "beyond-source" }, "Local codes, your qualified procedure and licensed practice come first."));
}

/** Purge on, off, moved; the countdown; a reading that overrides it. A port that moves is another set-up and another time. */
export function purgeScreen(app) {
  const { frame } = app;
  const moving = app.purge !== null && app.where.moving === true;
  const purge = moving ? null : app.purge;
  const joint = nextJoint(app);
  const setup = frame.setups.find((each) => each.id === (app.where.setup ?? purge?.setup ?? joint?.setup)) ?? frame.setups[0];
  const card = joint ? app.card(joint, "root") : null;
  const reading = purge ? "oxygen" : "pre_purge_flow";
  const line = lineOf(card, reading, "root") ?? { reading, words: app.sheet.quantities[reading][3], unit: app.sheet.quantities[reading][0], how: "read", unjudged: true };
  const text = app.where.text ?? "";
  const { value, problem } = readValue(text, app.sheet.quantities[reading]);
  const verdict = value !== null && !line.unjudged ? judged(line, value) : null;
  const put = (typed) => { app.where = { ...app.where, text: typed }; app.draw(); };
  const act = (kind) => async () => {
    const onward = app.onward();
    const values = kind !== "off" && value !== null ? measuredValues(app, { pre_purge_flow: value }, [line]) : {};
    await app.log({ kind: "purge", frame: frame.frame, setup: setup.id, line: app.purge?.line ?? app.line("purge").line, act: kind, values, card: card?.digest });
    onward({ screen: "purge" });
  };
  const take = async () => {
    const here = app.stillHere();
    await app.log({ kind: "reading", frame: frame.frame, setup: purge.setup, line: purge.line, values: { oxygen: measuredValue(app, line, value) }, card: card?.digest });
    if (here()) Object.assign(app, { result: null, where: { ...app.where, text: "", took: value } });
    app.draw();
  };
  const took = app.where.took && !line.unjudged ? judged(line, app.where.took) : null;
  const light = redLight([verdict ?? took].filter(Boolean), card);
  const kind = moving ? "moved" : "on";
  return page(app, purge ? `Purge is on, ${frame.frame}` : moving ? `Purge port moved, ${frame.frame}` : `Turn the purge on, ${frame.frame}`, h("div", { class: "two" },
    h("div", {}, light ?? (verdict ?? took ? verdictRow(verdict ?? took) : null),
      purge ? purgePanel(app, purge, card) : setupChoice(app, frame, setup), light ? null : argonCaution(card),
      app.where.took ? h("p", {}, `Reading ${app.where.took} ppm saved.`) : null,
      purge ? h("div", { class: "furthers" }, button({ class: "further", "data-key": "purge-off" }, act("off"), "Purge off"),
        button({ class: "further", "data-key": "purge-moved" }, () => app.go({ screen: "purge", moving: true }), "Purge port moved")) : null,
      moving ? h("div", { class: "furthers" }, button({ class: "further", "data-key": "not-moved" }, () => app.go({ screen: "purge" }), "Not moved")) : null,
      purge ? button({ class: "log", "data-key": "take", disabled: value === null }, take, problem ? problemWords(problem) : value === null ? "Key in the oxygen" : `Take ${value} ppm`)
        : button({ class: "log", "data-key": `purge-${moving ? "moved-now" : "on"}`, disabled: Boolean(problem) }, act(kind), problem ? problemWords(problem) : h("span", {}, moving ? `Moved: ${setup.id} from now` : "Purge on now"),
          value === null && !problem ? h("small", {}, "flow not read: volumes cannot be counted") : null)),
    padOf({ title: purge ? "Oxygen in the purge" : "Flow read", unit: line.unit, value: text }, put, problem)));
}

/** The next joint that wants gas, so that the right set-up and card stand there. */
export function nextJoint(app) {
  const step = nextSteps(app.frame, app.progress()).find((each) => each.allowed && !["check", "release"].includes(each.action));
  return app.joint ?? app.frame.joints.find((joint) => joint.id === step?.joint) ?? app.frame.joints[0];
}

/** What is stamped on the rod ends, against what the label says; the answer opens the sleeve, read or not, or is a later check. */
export function rodEndsScreen(app) {
  const { sleeve, filler_class: label, opened, read, check } = app.where;
  if (!sleeve) {
    return page(app, "Rod ends of which sleeve?", h("div", { class: "tiles" }, app.sleeves.map((each) => button({ class: "tile", "data-key": each.sleeve },
      () => app.go({ screen: "rod-ends", sleeve: each.sleeve, filler_class: each.filler_class, check: true }), h("strong", {}, each.sleeve), h("span", {}, `${each.filler_class} ${each.rod_mm} mm`)))));
  }
  const classes = [...new Set([...app.sheet.stock.sleeves, ...app.sleeves].map((each) => each.filler_class))].filter((each) => each !== UNREAD_LABEL).sort();
  if (opened) return page(app, `${sleeve}: label and rods disagree`, ...rodsDisagree(app, sleeve, label, read, opened));
  const open = (rodEnds) => async () => {
    const onward = app.onward();
    const { id } = await app.log({ kind: "sleeve", sleeve, bench: app.sheet.bench.id, act: check ? "checked" : "opened", rod_ends: rodEnds });
    onward(rodEnds && label && label !== UNREAD_LABEL && rodEnds !== label ? { screen: "rod-ends", sleeve, filler_class: label, opened: id, read: rodEnds, check } : { screen: "gas" });
  };
  return page(app, `${sleeve}: what do the rod ends say?`, h("p", {}, `${label && label !== UNREAD_LABEL ? `The label says ${label}.` : "What its label says is not known here; show it to the quality lead."}${check ? "" : " Your answer opens the sleeve here."}`),
    h("div", { class: "tiles" }, classes.map((each) => button({ class: "tile", "data-key": each }, open(each), h("strong", {}, each))),
      check ? null : button({ class: "tile", "data-key": "no-stamp" }, open(null), h("strong", {}, "Not read"), h("span", {}, "opened, to be read before the next fill"))));
}

/** One of the two is wrong, and a seam does not forgive the wrong one: said at once, with what to do. */
function rodsDisagree(app, sleeve, label, read, opened) {
  const close = async () => {
    const onward = app.onward();
    await app.log({ kind: "sleeve", sleeve, bench: app.sheet.bench.id, act: "closed" });
    onward({ screen: "gas" });
  };
  const mistaken = async () => {
    const { check } = app.where;
    const onward = app.onward();
    await app.log({ kind: "correction", of: opened, withdraw: true, reason: "rod ends tapped wrongly" });
    onward({ screen: "rod-ends", sleeve, filler_class: label, check });
  };
  return [
    h("section", { class: "red-light", role: "alert" }, h("h2", {}, h("span", { "aria-hidden": "true" }, "■ "), "Do not weld with it"),
      h("p", { class: "beyond-value" }, `${sleeve}: the label says ${label}, the rod ends say ${read}.`),
      h("p", { class: "beyond-do" }, "Take it off the bench and show it to the quality lead; look at what was filled from it."),
      h("p", { class: "beyond-source" }, "Local codes, your qualified procedure and licensed practice come first.")),
    button({ class: "log", "data-key": "close-it" }, close, `Close ${sleeve}: it leaves the bench`),
    h("div", { class: "tiles" }, button({ class: "tile", "data-key": "mistaken" }, mistaken, h("strong", {}, "Tapped wrongly"), h("span", {}, "say again what they say"))),
  ];
}

/** A test bead on scrap: good, failed, and its colour. */
export function beadScreen(app) {
  const line = app.lines.find((each) => each.line === app.where.line);
  const log = (result) => async (grade) => {
    const onward = app.onward();
    await app.log({ kind: "bead", line: line.line, cylinder: line.cylinder, result, grade, why: app.where.why ?? "shift" });
    onward({ screen: "gas" });
  };
  if (app.where.result) {
    return page(app, "Colour of the bead?", swatchBoard(({ answer, grade }) => log(app.where.result)(answer === "graded" ? grade : null)));
  }
  const choose = (result) => () => app.go({ ...app.where, result });
  const takeBack = async () => {
    const onward = app.onward();
    await app.log({ kind: "correction", of: app.where.change, withdraw: true, reason: "wrong cylinder tapped" });
    onward({ screen: "cylinder", line: line.line });
  };
  return page(app, `Test bead on scrap, ${line.line}`, h("p", {}, `Cylinder ${line.cylinder ?? "none"}. Run it, hold the gas until it is cold, look at both faces.`),
    h("div", { class: "tiles" }, button({ class: "tile", "data-key": "good" }, choose("good"), h("strong", {}, "Good")),
      button({ class: "tile", "data-key": "failed" }, choose("failed"), h("strong", {}, "Failed: the line stops")),
      button({ class: "tile", "data-key": "later" }, () => app.go({ screen: "gas" }), h("strong", {}, "Later")),
      app.where.change ? button({ class: "tile", "data-key": "take-back" }, takeBack, h("strong", {}, "Wrong cylinder"), h("span", {}, "take the change back")) : null));
}

function setupChoice(app, frame, setup) {
  return h("div", {}, h("div", { class: "choices", role: "group", "aria-label": "Purge set-up" }, frame.setups.map((each) => button(
    { class: "choice", "data-key": `setup-${each.id}`, "aria-pressed": String(each === setup) }, () => { app.where = { ...app.where, setup: each.id }; app.draw(); }, each.id))),
  setup ? h("p", { class: "setup" }, h("strong", {}, "Gas in: "), setup.inlet, ". ", h("strong", {}, "Gas out: "), setup.outlets.join(", "), ". ",
    h("strong", {}, "Closed or taped: "), setup.closed.join(", ") || "nothing", ". ", h("strong", {}, "Volume: "), `${setup.volume_l} L.`) : null);
}

function argonCaution(card) {
  const found = (card?.cautions ?? []).map(cautionParts).filter(({ words }) => /argon|oxygen/i.test(words)).slice(0, 1);
  return found.map(({ words, authority }) => h("p", { class: "caution" }, h("strong", {}, "Caution. "), words, " ", h("span", {}, authority)));
}

/** A screen with its heading, which stands in the bar on top beside the way back. */
export function page(app, title, ...content) {
  app.heading = { title, back: () => app.go(app.joint ? { screen: "joint", joint: app.joint.id } : { screen: "frame" }) };
  return h("div", { class: "plain-screen" }, ...content);
}
