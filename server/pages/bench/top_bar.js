// The bar that always stands: which frame, who, and where the entries are; and the foot with the one big problem button.

import { button, h } from "./element.js";
import { failedLines } from "./gas_state.js";
import { countdown } from "./guide.js";
import { purgeTimes } from "./guide_times.js";
import { onThisTablet, photoWords } from "./photos.js";

const TABS = 3;

/** Frames in flight, or the way back from a joint; the person; and the two states an entry can be in. */
export function topBar(app) {
  return h("div", { class: "bench-bar" }, app.heading ? heading(app) : frameTabs(app), personButton(app), stateButton(app), calledOut(app));
}

/** What is over now lies over the bar's end until it is tapped or the work goes on: no key moves under a finger for it. */
function calledOut(app) {
  if (!app.called || app.failed) return null;
  const seen = () => { app.called = null; app.draw(); };
  return h("div", { class: "called", role: "alert" }, button({ "data-key": "called" }, seen, h("strong", {}, app.called), h("span", {}, "tap when seen")));
}

/** The newest frames, the one in hand among them, and the way to those the bar has no room for. */
function frameTabs(app) {
  const newest = app.frames.slice(-TABS);
  const shown = !app.frame || newest.includes(app.frame) ? newest : [app.frame, ...newest.slice(1)];
  const left = app.frames.length - shown.length;
  return h("div", { class: "frames", role: "group", "aria-label": "Frames in work" }, shown.map((frame) => button(
    { class: "frame-tab", "data-key": `frame-${frame.frame}`, "aria-pressed": String(frame === app.frame) },
    () => app.go({ screen: "frame", frame: frame.frame }), h("strong", {}, frame.frame), h("span", {}, `${frame.title} ${frame.size}`))),
  left ? button({ class: "frame-tab", "data-key": "all-frames" }, () => app.go({ screen: "frame", more: "frames" }), h("strong", {}, `${left} more`), h("span", {}, left === 1 ? "frame" : "frames")) : null);
}

function heading(app) {
  const { title, name, back } = app.heading;
  return h("div", { class: "frames" },
    button({ class: "back", "data-key": "back" }, back, h("strong", {}, "‹ Back"), h("span", {}, app.frame?.frame ?? "")),
    h("h1", { tabindex: "-1" }, name ? [h("span", { class: "joint-id" }, name), " "] : null, unbroken(title)));
}

/** A serial is never broken at its hyphen. */
function unbroken(title) {
  return title.split(/(\S+-\S+)/).map((part, at) => (at % 2 ? h("span", { class: "unbroken" }, part) : part));
}

/** Below everything: purge, gas, what was logged, and the one big button for when something went wrong. */
export function footBar(app) {
  const to = (screen, label, small) => button({ class: "foot-choice", "data-key": `foot-${screen}`, "aria-current": app.where.screen === screen ? "page" : null },
    () => app.go({ screen }), h("strong", {}, label), h("span", {}, small));
  return h("div", { class: "bench-foot" },
    app.frame ? to("purge", "Purge", purgeState(app)) : null,
    app.sheet ? to("gas", "Gas, rods", gasWords(app)) : null,
    app.sheet ? to("log", "Logged", "and correct") : null,
    app.person ? problemButton(app) : null);
}

/** What is open, or on every screen the line that stands still. */
function gasWords(app) {
  const [failed] = failedLines(app);
  return failed ? h("strong", {}, h("span", { "aria-hidden": "true" }, "■ "), `${failed.line}: bead failed`) : `${app.sleeves.length} open`;
}

/** How the purge stands, on every screen: its time running down, or what was read in it. */
function purgeState(app) {
  if (!app.purge) return "not on";
  const { until, read } = purgeTimes(app, app.purge);
  if (read) return `on, read ${read.value} ppm`;
  return until ? [h("span", {}, "on: "), countdown(until, "read it now")] : `on, ${app.purge.setup}`;
}

/** One tap keeps that something went wrong, here and now; what it was may follow. */
function problemButton(app) {
  return button({ class: "problem", "data-key": "problem" }, async () => {
    const joint = app.where.joint && ["joint", "look", "clean"].includes(app.where.screen) ? app.where.joint : undefined;
    const onward = app.onward();
    const kept = await app.log({ kind: "problem", frame: app.frame?.frame, joint, what: "other", words: "stopped: details follow" });
    onward({ screen: "problem", of: kept.id, joint });
  }, "Stop: problem");
}

function personButton(app) {
  const { person } = app;
  const open = person?.confirmed ? app.unconfirmedEntries().length : 0;
  const doubt = person && !person.confirmed ? "not confirmed" : open ? `${open} to confirm` : person?.role ?? "";
  return button({ class: "person", "data-key": "person" }, () => app.go({ screen: "person" }),
    h("strong", {}, person ? person.name : "Who is working?"), h("span", {}, doubt));
}

function stateButton(app) {
  const count = onThisTablet(app);
  const words = count ? `On this tablet: ${count}` : "All in the record";
  const why = { "no answer": "no answer yet, trying again", "sign in": "sign in to send", sending: "sending" }[app.link.is] ?? "";
  const told = app.told.length ? `${app.told.length} to look at` : "";
  const other = count ? why || photoWords(app) : app.sheet ? "" : "no sheet yet";
  return button({ class: `state ${count || told ? "state-waiting" : ""}`, "data-key": "state" }, () => app.go({ screen: "tablet" }),
    h("strong", {}, h("span", { "aria-hidden": "true" }, count ? "▲ " : "● "), words),
    h("span", {}, told || (app.newer ? "newer bench: tap" : other)));
}
