// A newer bench: heard of through the service worker where there is one, else by what the sheet's answer says; taken in by a tap.

const LOOK_FOR_NEWER_MS = 900000;
const PATIENCE_MS = 8000;
const own = new URL(import.meta.url).pathname.split("/").at(-2);
/** Settled once it is known whether there is a service worker here. */
let registered = Promise.resolve(null);

/** The shell is kept by the service worker where there can be one, so that the page opens without the network.
 * A bench left open for days asks for a newer one itself, and says when one has come; it is taken in when somebody taps. */
export function keepShell(app) {
  const { serviceWorker } = navigator;
  if (!serviceWorker) return;
  let kept = Boolean(serviceWorker.controller);
  serviceWorker.addEventListener("controllerchange", () => {
    if (kept) { app.newer = true; app.draw(); }
    kept = true;
  });
  registered = serviceWorker.register("/sw.js").catch(() => null);
  setInterval(look, LOOK_FOR_NEWER_MS);
}

/** The house has another build than this page: a service worker fetches it first, without one it is there to be taken in. */
export async function heardBuild(app, build) {
  if (!build || build === own || await look()) return;
  app.newer = true;
  app.draw();
}

/** Opens the page anew; without a service worker only while the house answers, since nothing else could open it again. */
export async function takeIn(app) {
  const answer = await registered ? { ok: true } : await fetch("/bench", { cache: "no-store", signal: AbortSignal.timeout(PATIENCE_MS) }).catch(() => null);
  if (answer?.ok) { location.reload(); return; }
  app.notTakenIn = answer ? "Sign in first: the bench opens anew only for somebody who is signed in." : "The shop’s network does not answer, so this bench stays open. Tap again when it is back.";
  app.draw();
}

/** Asks the service worker to look; gives whether there is one. */
async function look() {
  const registration = await registered;
  registration?.update().catch(() => null);
  return Boolean(registration);
}
