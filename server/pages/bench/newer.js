// A newer bench: heard of through the service worker where there is one, else by what the sheet's answer says; taken in by a tap.

const LOOK_FOR_NEWER_MS = 900000;
const PATIENCE_MS = 8000;
const own = new URL(import.meta.url).pathname.split("/").at(-2);
let registration = null;

/** The shell is kept by the service worker where there can be one, so that the page opens without the network.
 * A bench left open for days asks for a newer one itself, and says when one has come; it is taken in when somebody taps. */
export async function keepShell(app) {
  const { serviceWorker } = navigator;
  if (!serviceWorker) return;
  let kept = Boolean(serviceWorker.controller);
  serviceWorker.addEventListener("controllerchange", () => {
    if (kept) { app.newer = true; app.draw(); }
    kept = true;
  });
  registration = await serviceWorker.register("/sw.js").catch(() => null);
  if (registration) setInterval(look, LOOK_FOR_NEWER_MS);
}

/** The house has another build than this page: a service worker fetches it first, without one it is there to be taken in. */
export function heardBuild(app, build) {
  if (!build || build === own) return;
  if (registration) look();
  else app.newer = true;
}

/** Opens the page anew; without a service worker only while the house answers, since nothing else could open it again. */
export async function takeIn(app) {
  const answer = registration ? { ok: true } : await fetch("/bench", { cache: "no-store", signal: AbortSignal.timeout(PATIENCE_MS) }).catch(() => null);
  if (answer?.ok) { location.reload(); return; }
  app.notTakenIn = answer ? "Sign in first: the bench opens anew only for somebody who is signed in." : "The shop’s network does not answer, so this bench stays open. Tap again when it is back.";
  app.draw();
}

function look() {
  registration.update().catch(() => null);
}
