// The guide: how long the purge still runs, how long to hold, how long to pause; always advice, and a reading overrides it.

import { minutesAndSeconds, wallClock } from "./clock.js";
import { h } from "./element.js";
import { dueCalls, holdSeconds, pauseOf, purgeNeeds, purgeTimes } from "./guide_times.js";
import { judged, wordMark } from "./verdicts.js";
import { withUnit } from "./words.js";

const called = new Set();

/** A time that runs down on the screen by itself; when it is over, `over` stands there. */
export function countdown(until, over) {
  return h("strong", { class: "countdown", "data-until": until, "data-over": over }, countdownWords(until, over));
}

/** Moves every countdown on; called a few times a second, touching only their words. */
export function tick(root = document) {
  for (const shown of root.querySelectorAll(".countdown")) {
    const words = countdownWords(Number(shown.dataset.until), shown.dataset.over);
    if (shown.textContent !== words) shown.textContent = words;
  }
}

/** Calls out, once, whatever is over now: on every screen, by sound, by a shake and in words. */
export function callOut(app) {
  for (const { name, words } of dueCalls(app)) {
    if (called.has(name)) continue;
    called.add(name);
    app.called = words;
    ring();
    app.draw();
  }
}

/** The purge that is on: what is left of it and why, the member that clears last; a reading takes the place of both. */
export function purgePanel(app, purge, card) {
  const { until, because, slow, read } = purgeTimes(app, purge, card ?? undefined);
  const over = "Time is over: now the reading decides";
  return h("section", { class: "guide", "aria-label": "Purge" },
    h("div", { class: "guide-top" }, h("h2", {}, `Purge on ${purge.line}, ${purge.setup}`),
      h("p", { class: "guide-big" }, read ? readWords(app, read) : until ? countdown(until, over) : "The card asks no time")),
    read ? h("p", {}, "The reading decides, whatever was reckoned.") : [because.length ? h("p", {}, `Card: ${because.join("; ")}.`) : null, slow ? h("p", { class: "quiet" }, slowWords(slow)) : null]);
}

function readWords(app, { value, at, line }) {
  return [`Read ${withUnit(value, "ppm")} at ${wallClock(app.sheet.zone, at)} `, line ? wordMark(judged(line, value)) : null];
}

function slowWords({ slowest, minutes }) {
  return `By reckoning the ${slowest} clears last${minutes ? `, after about ${minutes} min` : ", not within a day: look for a closed hole"}. Advice: the reading decides.`;
}

/** Before the first arc of a purge: the card's own time still to run, or that no purge is logged on; a reading does not replace it. */
export function purgeNote(app, joint, draft, card) {
  if (draft.run === "tack" || !card) return null;
  const { purge } = app;
  const { because } = purgeNeeds(card, app.setup(joint), null);
  if (!purge) return because.length ? notYet("The card asks for purge, and none is logged on.") : null;
  const started = app.entries().some((entry) => entry.kind === "pass" && entry.frame === app.frame.frame && entry.happened >= purge.since);
  const until = Date.parse(purge.since) + purgeTimes(app, purge, card).minutes * 60000;
  return started || until <= Date.now() ? null : notYet("The card’s purge time: ", countdown(until, "is over"), ".");
}

function notYet(...words) {
  return h("div", { class: "blocked-note" }, h("p", {}, h("strong", {}, "Not yet. "), words));
}

/** The hold after the arc: the post-flow of the card, and the reckoned band until the metal has lost its heat. */
export function holdPanel(app, joint, result) {
  const asked = Number(result.card?.lines.find((line) => line.name === "post_flow")?.low ?? 0);
  const band = joint?.hold;
  if (!asked && !band) return null;
  return h("section", { class: "hold", "aria-label": "Hold after the arc" },
    h("strong", { class: "hold-title" }, "Hold torch and purge gas"), " ", countdown(result.at + holdSeconds(result.card, joint) * 1000, "Hold is over"),
    h("span", {}, [asked ? `Card: ${asked} s or more.` : null, band ? `By reckoning under ${band.limit_c} °C after ${band.low} to ${band.high} s.` : null].filter(Boolean).join(" ")),
    pausePart(app, joint, result.kept?.entry.run));
}

/** Which quarter meets the least heat, and how long to wait; the metal's own temperature, once read, takes its place. */
export function pauseNote(app, joint, draft) {
  if (draft.run === "tack" || !joint.quartered) return null;
  const line = app.card(joint, draft.run)?.lines.find((each) => each.name === "interpass");
  const read = draft.values.interpass;
  if (read && line) return h("p", { class: "pause-note" }, h("strong", {}, `Metal read ${withUnit(read, "°C")}`), " The reading decides, whatever was reckoned.");
  const part = pausePart(app, joint, draft.run);
  return part ? h("div", { class: "pause-note" }, part) : null;
}

function pausePart(app, joint, run) {
  if (!joint || !run) return null;
  const { until, quarter, asked_min } = pauseOf(app, joint, run);
  const order = (joint.pause?.order ?? []).map((each) => each.slice(1)).join(", ");
  const limit = joint.pause?.limit_c ? ` keeps what the next arc meets under ${joint.pause.limit_c} °C` : "";
  if (!until && !quarter) return null;
  return h("span", { class: "pause" }, until ? [h("strong", {}, "Pause "), countdown(until, "is over"), ". "] : null,
    quarter ? [h("strong", {}, `Next ${quarter.slice(1)} o’clock`), ` (least heat: ${order}). `] : null,
    asked_min ? `Card: ${asked_min} min or more. ` : "", until && limit ? `By reckoning it${limit}.` : "", " Advice only.");
}

function countdownWords(until, over) {
  const left = (until - Date.now()) / 1000;
  return left > 0 ? `${minutesAndSeconds(left)} left` : over;
}

/** A short sound and a shake: the hood is down and the hands are busy. */
function ring() {
  navigator.vibrate?.([300, 150, 300]);
  try {
    const sound = new AudioContext();
    const tone = sound.createOscillator();
    tone.frequency.value = 880;
    tone.connect(sound.destination);
    tone.onended = () => sound.close();
    tone.start();
    tone.stop(sound.currentTime + 0.6);
  } catch { /* a tablet without sound still shakes and shows it */ }
}
