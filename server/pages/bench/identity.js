// Who is at the tablet, and how sure that is: signed in, or only named while the network was away.

import { fetchAsDevice } from "./device_key.js";
import { remember } from "./store.js";

/** The verbs about people that the screens use. */
export function whoIsHere(app) {
  return {
    /** Somebody named without signing in: entries are marked until that person has signed in and confirmed them. */
    handOver(person) {
      app.person = { id: person.id, name: person.name, role: person.roles[0], confirmed: false, over: app.sheet?.visitor?.since_ms };
      remember(app.store, "person", app.person);
      app.go({ screen: "frame" });
    },

    /** Own entries made without a confirmed identity and not yet confirmed by a later entry. */
    unconfirmedEntries() {
      return app.entries().filter((entry) => entry.unconfirmed && entry.who === app.person?.id);
    },

    /** One confirming entry for each, made under the session that was signed in. */
    async confirmOwn() {
      const { person } = app;
      for (const entry of app.unconfirmedEntries()) {
        await app.log({ kind: "correction", of: entry.id, change: { unconfirmed: false }, reason: "identity confirmed after signing in" }, person);
      }
      app.draw();
    },

    /** Signs in whose badge this is; the bench opens anew as theirs, with whatever waits on the tablet. */
    async comeInBy(badge) {
      try {
        const answer = await fetchAsDevice("/sign-in/badge", {
          method: "POST", redirect: "manual", signal: AbortSignal.timeout(8000), body: new URLSearchParams({ badge, onward: "/bench" }),
        });
        if (answer.type === "opaqueredirect") { location.assign("/bench"); return; }
        app.scanNote = "This badge is not known, or a newer one took its place. Sign in by name and PIN.";
      } catch {
        app.scanNote = "The network is away, so the badge cannot be looked up. Tap your name instead.";
      }
      app.draw();
    },

    /** Proves another person by their PIN or badge: confirmed, refused, or offline (then the entry is marked). */
    async prove(person, pin) {
      try {
        const answer = await fetch("/api/prove", {
          method: "POST", headers: { "Content-Type": "application/json" }, signal: AbortSignal.timeout(8000),
          body: JSON.stringify({ person, secret: pin }),
        });
        if (answer.ok) return "confirmed";
        app.refusal = (await answer.json()).detail;
        return answer.status >= 500 ? "offline" : "refused";
      } catch {
        return "offline";
      }
    },
  };
}

/** Takes over what the record says about who is signed in; nobody signed in leaves the name, but unconfirmed.
 * Whoever was named over somebody's sign-in stays until there is another sign-in: the first one is not at work any more. */
export function showPerson(app, visitor) {
  const before = app.person;
  if (visitor && isNamedOver(before, visitor)) return;
  if (visitor) app.person = { id: visitor.person, name: visitor.name, role: visitor.role, confirmed: true };
  else if (before) app.person = { ...before, confirmed: false };
  if (JSON.stringify(before) !== JSON.stringify(app.person)) remember(app.store, "person", app.person);
}

function isNamedOver(person, visitor) {
  return Boolean(person) && !person.confirmed && person.id !== visitor.person && person.over === visitor.since_ms;
}
