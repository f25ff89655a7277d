// The guide: how long the purge still runs, how long to hold the gas after the arc; a reading always overrides it.

import { minutesAndSeconds } from "./clock.js";
import { h } from "./element.js";

const rung = new Set();

/** A time that runs down on the screen by itself; when it is over, `over` stands there and the tablet says so once. */
export function countdown(until, over, name) {
  return h("strong", { class: "countdown", "data-until": until, "data-over": over, "data-name": name }, countdownWords(until, over));
}

/** Moves every countdown on; called a few times a second, touching only their words. */
export function tick(root = document) {
  for (const shown of root.querySelectorAll(".countdown")) {
    const until = Number(shown.dataset.until);
    const words = countdownWords(until, shown.dataset.over);
    if (shown.textContent !== words) shown.textContent = words;
    if (Date.now() >= until && Date.now() - until < 5000 && !rung.has(`${shown.dataset.name}${until}`)) {
      rung.add(`${shown.dataset.name}${until}`);
      ring();
    }
  }
}

/** What the purge needs before the arc: {minutes, because} from the card, the set-up's volume and the flow set. */
export function purgeNeeds(card, setup, flow) {
  const least = (name) => Number(card?.lines.find((line) => line.name === name)?.low ?? 0);
  const [minutes, volumes] = [least("pre_purge"), least("pre_purge_volumes")];
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

/** The purge that is on: what is left of it, why, and the member that clears last. */
export function purgePanel(app, purge, setup, card) {
  const flow = Number(purge.flow ?? 0) || null;
  const { minutes, because } = purgeNeeds(card, setup, flow);
  const until = Date.parse(purge.since) + minutes * 60000;
  const slow = forecastAt(setup, flow);
  return h("section", { class: "guide", "aria-label": "Purge" },
    h("h2", {}, `Purge on ${purge.line}, ${purge.setup}`),
    h("p", { class: "guide-big" }, minutes ? countdown(until, "Time is over: now the reading decides", "purge") : "The card asks no time"),
    because.map((words) => h("p", {}, words)),
    slow ? h("p", { class: "quiet" }, `By reckoning the ${slow.slowest} clears last${slow.minutes ? `, after about ${slow.minutes} min` : ", not within a day: look for a closed hole"}. The reading decides.`) : null);
}

/** The hold after the arc: the post-flow of the card, and the reckoned band until the metal has lost its heat. */
export function holdPanel(app, joint, result) {
  const asked = Number(result.card?.lines.find((line) => line.name === "post_flow")?.low ?? 0);
  const band = joint?.hold;
  if (!asked && !band) return null;
  const seconds = Math.max(asked, band?.high ?? 0);
  return h("section", { class: "hold", "aria-label": "Hold after the arc" },
    h("strong", { class: "hold-title" }, "Hold torch and purge gas"), " ", countdown(result.at + seconds * 1000, "Hold is over", "hold"),
    h("span", {}, [asked ? `Card: ${asked} s or more.` : null, band ? `By reckoning under ${band.limit_c} °C after ${band.low} to ${band.high} s.` : null].filter(Boolean).join(" ")));
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
    tone.start();
    tone.stop(sound.currentTime + 0.6);
  } catch { /* a tablet without sound still shakes and shows it */ }
}
