// Who works, and releasing a seam: another person looks at it, and says so with their own PIN on this tablet.

import { button, h, key } from "./element.js";
import { page } from "./gas_screen.js";
import { holdsOf } from "./holds.js";
import { capital } from "./words.js";

const PIN_DIGITS = 6;
const PIN_KEYS = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "", "0", "⌫"];

/** Hand over: online through the sign-in, offline by name, marked until confirmed. */
export function personScreen(app) {
  const workers = app.sheet?.people.filter((person) => person.roles.some((role) => ["welder", "fitter", "quality lead"].includes(role))) ?? [];
  const unconfirmed = app.unconfirmedEntries();
  return page(app, app.person ? `${app.person.name} is working` : "Who is working?",
    h("div", { class: "tiles" }, h("a", { class: "tile", href: "/sign-in?onward=/bench" }, h("strong", {}, "Sign in"), h("span", {}, "by badge, or by name and PIN, while the network is there")),
      unconfirmed.length && app.person?.confirmed ? button({ class: "tile", "data-key": "confirm" }, () => app.confirmOwn(), h("strong", {}, `Confirm ${unconfirmed.length} entries`), h("span", {}, "made without the network, as yours")) : null),
    namedOver(app), h("h2", {}, "Without the network"), h("p", {}, "Tap your name. Entries are marked “not confirmed” until you have signed in and confirmed them."),
    h("div", { class: "tiles" }, workers.map((person) => button({ class: "tile", "data-key": `person-${person.id}` }, () => app.handOver(person),
      h("strong", {}, person.name), h("span", {}, person.roles.join(", "))))));
}

/** Two names at one tablet: whose the next entry is, and that the first one's sign-in stands until there is another. */
function namedOver(app) {
  const { person, sheet } = app;
  if (!person || person.confirmed || !sheet?.visitor || sheet.visitor.person === person.id) return null;
  return h("p", { class: "notice-strong" }, `${sheet.visitor.name} signed in on this tablet last. What is logged now stands as ${person.name}’s, not confirmed, until ${person.name} signs in.`);
}

/** A hold point: the seam is looked at by somebody who did not weld it, before it disappears. */
export function releaseScreen(app) {
  const joint = app.joint;
  const { known } = app.looksDue(joint);
  const { by, pin = "", refused, proving } = app.where;
  const others = app.sheet.people.filter((person) => !known.welders.includes(person.id) && person.roles.some((role) => ["quality lead", "owner", "welder"].includes(role)));
  const hides = joint.hides;
  const held = (holdsOf(app)[joint.id] ?? []).map((words) => h("p", { class: "blocked-note" }, h("strong", {}, "Held. "), capital(words), "."));
  if (!by) {
    return page(app, `Release ${joint.id}: who looks at it?`, hides.length ? hides.map((words) => h("p", {}, `${capital(words)}.`)) : h("p", {}, "Nothing hides this seam later; a release is welcome all the same."), held,
      known.welders.length ? h("p", { class: "quiet" }, "Nobody releases a seam they welded.") : null,
      h("div", { class: "tiles" }, others.map((person) => button({ class: "tile", "data-key": `by-${person.id}` }, () => app.go({ screen: "release", joint: joint.id, by: person.id }),
        h("strong", {}, person.name), h("span", {}, person.roles.join(", "))))));
  }
  const person = others.find((each) => each.id === by);
  const put = (digit) => { app.where = { ...app.where, refused: null, pin: digit === "⌫" ? pin.slice(0, -1) : (pin + digit).slice(0, PIN_DIGITS) }; app.draw(); };
  return page(app, `${person.name}, your PIN`, h("div", { class: "two" },
    h("div", {}, h("p", { class: "declared" }, `“I have looked at ${joint.id} of ${app.frame.frame}. It is finished and may be covered.”`), held,
      h("p", { class: "quiet" }, "Or scan your badge."),
      refused ? h("p", { class: "pad-problem", role: "alert" }, refused) : null,
      button({ class: "log", "data-key": "release-now", disabled: proving || pin.length < PIN_DIGITS }, () => release(app, joint, person, pin), proving ? "Asking the record …" : pin.length < PIN_DIGITS ? "Key in your PIN" : `Release ${joint.id}`)),
    h("div", { class: "joint-pad" }, h("div", { class: "pad-shown" }, h("span", { class: "pad-title" }, "PIN"), h("output", { class: "pad-value", "aria-label": `${pin.length} of ${PIN_DIGITS} digits` }, "●".repeat(pin.length) + "○".repeat(PIN_DIGITS - pin.length))),
      h("div", { class: "pad-keys" }, PIN_KEYS.map((digit) => digit === "" ? h("span", {}) : key({ class: "pad-key", "data-key": `pin-${digit}`, "aria-label": digit === "⌫" ? "wipe the last digit" : digit }, () => put(digit), digit))))));
}

/** A badge stands for the PIN of whoever was tapped at a hold point; anywhere else it signs its person in. */
export async function badgeRead(app, code) {
  const { screen, by, proving } = app.where;
  if (screen !== "release") return app.comeInBy(code);
  if (proving) return null;
  if (by) return release(app, app.joint, app.sheet.people.find((each) => each.id === by), code);
  app.scanNote = "Tap who looks at it, then scan their badge.";
  return app.draw();
}

async function release(app, joint, person, pin) {
  const [here, onward, { frame }] = [app.stillHere(), app.onward(), app.frame];
  const attempt = app.progress().joints[joint.id].attempt;
  app.where = { ...app.where, proving: true };
  app.draw();
  const proof = await app.prove(person.id, pin);
  if (proof === "refused") {
    if (here()) app.where = { ...app.where, pin: "", refused: app.refusal, proving: false };
    app.draw();
    return;
  }
  const confirmed = proof === "confirmed";
  await app.log({ kind: "release", frame, joint: joint.id, attempt, provisional: confirmed && !app.waiting.length ? null : true },
    { id: person.id, role: person.roles[0], confirmed });
  onward({ screen: "frame" });
}
