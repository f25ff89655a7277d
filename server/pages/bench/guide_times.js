// When the purge is ready, the hold over, the pause past: reckoned from what was logged, so that a reload loses nothing.

import { lineOf } from "./asks.js";
import { minutesAndSeconds } from "./clock.js";
import { openQuarters } from "./progress.js";

/** What is over this long is no longer called out, and a pause this long past is no longer shown. */
const STALE_MS = 120000;
const LONGEST_SHOWN_MS = 3600000;

/** What the purge needs before the arc: {minutes, because} from the card, the set-up's volume and the flow set. */
export function purgeNeeds(card, setup, flow) {
  const [minutes, volumes] = [bound(card, "pre_purge", "low"), bound(card, "pre_purge_volumes", "low")];
  const byVolume = flow && setup?.volume_l && volumes ? (volumes * setup.volume_l) / flow : 0;
  const parts = [];
  if (minutes) parts.push(`at least ${minutes} min`);
  if (volumes && byVolume) parts.push(`${volumes} volumes of ${setup.volume_l} L at ${flow} L/min: ${minutesAndSeconds(byVolume * 60)}`);
  if (volumes && !byVolume) parts.push(`${volumes} volumes: the flow is not known, so they cannot be counted`);
  return { minutes: Math.max(minutes, byVolume), because: parts };
}

/** The reckoning of the slowest member at the flow nearest to the one set, or null. */
export function forecastAt(setup, flow) {
  const known = setup?.forecast ?? [];
  if (!known.length || !flow) return null;
  return [...known].sort((a, b) => Math.abs(a.flow_l_per_min - flow) - Math.abs(b.flow_l_per_min - flow))[0];
}

/** The purge that is on: when the card's time and the slowest member's are over, and the reading that overrides both. */
export function purgeTimes(app, purge, card = purgeCard(app, purge)) {
  const setup = app.frame.setups.find((each) => each.id === purge.setup);
  const flow = Number(purge.flow ?? 0) || null;
  const { minutes, because } = purgeNeeds(card, setup, flow);
  const slow = forecastAt(setup, flow);
  const longest = Math.max(minutes, slow?.minutes ?? 0);
  return { because, slow, minutes, until: longest ? Date.parse(purge.since) + longest * 60000 : null, read: oxygenRead(app, purge, card) };
}

/** The oxygen read last in this purge, with the line it is held against: whatever was reckoned, this is what is. */
function oxygenRead(app, purge, card) {
  const last = app.entries().findLast((entry) => entry.frame === app.frame.frame && entry.values?.oxygen && entry.happened >= purge.since);
  return last ? { value: last.values.oxygen.value, at: last.happened, line: lineOf(card, "oxygen", "root") } : null;
}

function purgeCard(app, purge) {
  const joint = app.frame.joints.find((each) => each.setup === purge.setup);
  return joint ? app.card(joint, "root") : null;
}

/** Seconds to hold torch and purge after the arc: the post-flow asked for, or the high end of the band if that is longer. */
export function holdSeconds(card, joint) {
  return Math.max(bound(card, "post_flow", "low"), joint?.hold?.high ?? 0);
}

/** The pause before the next arc on a seam: {until, asked_min, quarter}; null where nothing is known or all is long past. */
export function pauseOf(app, joint, run) {
  const progress = app.progress().joints[joint.id];
  const quarter = nextQuarter(joint, progress, run);
  const last = app.entries().findLast((entry) => isPassOn(app, joint, entry));
  const asked_min = run === "repair" ? bound(app.card(joint, "repair"), "cool_time", "low") : 0;
  const reckoned_s = pauseSeconds(joint, last) ?? 0;
  const until = last ? Date.parse(last.happened) + Math.max(asked_min * 60, reckoned_s) * 1000 : 0;
  return { quarter, asked_min, reckoned_s, until: Date.now() - until < LONGEST_SHOWN_MS && (asked_min || reckoned_s) ? until : null };
}

/** The quarter that meets the least heat of those still open; none once a run went all round, or has one quarter left. */
function nextQuarter(joint, progress, run) {
  const open = openQuarters(progress, run);
  const left = (joint.pause?.order ?? []).filter((quarter) => open.includes(quarter));
  return left.length > 1 ? left[0] : null;
}

function pauseSeconds(joint, last) {
  const whole = (last?.quarters ?? []).length === 4;
  return last && joint.pause ? whole ? joint.pause.lap_s?.high : joint.pause.between_s : null;
}

function isPassOn(app, joint, entry) {
  return entry.kind === "pass" && entry.frame === app.frame.frame && entry.joint === joint.id;
}

/** Everything this tablet should call out when its time is over: {name, until, words}. */
export function calls(app) {
  if (!app.sheet || !app.frame) return [];
  return [...purgeCall(app), ...arcCalls(app)];
}

/** Those whose time was over a moment ago. */
export function dueCalls(app, now = Date.now()) {
  return calls(app).filter(({ until }) => until && now >= until && now - until < STALE_MS);
}

function purgeCall(app) {
  const times = app.purge ? purgeTimes(app, app.purge) : null;
  return times?.until && !times.read ? [{ name: `purge ${app.purge.id}`, until: times.until, words: "Purge time is over: now the reading decides" }] : [];
}

function arcCalls(app) {
  const last = app.entries().findLast((entry) => entry.kind === "pass" && entry.device === app.clock.device);
  const joint = last?.frame === app.frame.frame ? app.frame.joints.find((each) => each.id === last.joint) : null;
  if (!joint) return [];
  const hold = holdSeconds(app.card(joint, last.run), joint);
  const { until } = pauseOf(app, joint, last.run);
  return [{ name: `hold ${last.id}`, until: hold ? Date.parse(last.happened) + hold * 1000 : null, words: `Hold on ${joint.id} is over` },
    { name: `pause ${last.id}`, until, words: `Pause on ${joint.id} is over` }];
}

function bound(card, name, end) {
  return Number(card?.lines.find((line) => line.name === name)?.[end] ?? 0);
}
