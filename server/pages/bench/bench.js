// Starts the bench: opens the store, shows what the tablet knows, then asks the record for the newest sheet.

import { BenchApp } from "./bench_app.js";
import { makeClock } from "./clock.js";
import { draw } from "./drawing.js";
import { callOut, tick } from "./guide.js";
import { countFrom, forgetOld } from "./outbox.js";
import { showPerson, whoIsHere } from "./identity.js";
import { startPhotos } from "./photos.js";
import { makeSender } from "./sender.js";
import { listenToWedge } from "./scan.js";
import { heardBuild, keepShell } from "./newer.js";
import { storageState } from "./storage.js";
import { withFound } from "./stock.js";
import { openStore, remember } from "./store.js";
import { answeringFirst } from "./tap.js";
import { leadBack } from "./way_back.js";

const root = document.getElementById("bench");
const FETCH_EVERY_MS = 60000;
const FETCH_AGAIN_MS = 3000;
/** How often the sheet was asked for, and which asking the sheet at hand answers. */
const sheets = { asked: 0, shown: 0 };

async function start() {
  const store = await openStore();
  const app = new BenchApp(store, makeClock(root.dataset.device), answeringFirst((how) => draw(app, root, how)));
  const sender = makeSender(store, (link) => heard(app, link));
  app.send = () => sender.wake();
  app.saved = () => { sender.wake(); tellOtherTabs(); };
  app.askRecord = () => askRecord(app);
  Object.assign(app, whoIsHere(app));
  const tabs = "BroadcastChannel" in globalThis ? new BroadcastChannel("strawline-bench") : null;
  const tellOtherTabs = () => tabs?.postMessage("changed");
  if (tabs) tabs.onmessage = async () => { await app.refresh(); app.draw(); };
  app.tellOtherTabs = tellOtherTabs;
  await startPhotos(app);
  await app.wake();
  leadBack(app);
  for (const kind of ["error", "unhandledrejection"]) addEventListener(kind, (trouble) => sayTrouble(app, trouble));
  app.draw();
  globalThis.strawlineBench = app;
  listenToWedge(app);
  setInterval(tick, 250);
  setInterval(() => callOut(app), 1000);
  keepShell(app);
  app.storage = await storageState();
  sender.wake();
  await untilThereIsASheet(app);
  setInterval(() => fetchSheet(app), FETCH_EVERY_MS);
  addEventListener("online", () => fetchSheet(app));
}

/** A tablet that knows nothing yet asks again soon; one that has a sheet can wait for its minute. */
async function untilThereIsASheet(app) {
  await fetchSheet(app);
  while (!app.sheet) {
    await new Promise((over) => setTimeout(over, FETCH_AGAIN_MS));
    await fetchSheet(app);
  }
}

/** A screen that fails says so, and the way back to the frame stays open; what was saved is saved. */
function sayTrouble(app, trouble) {
  if (trouble.reason?.told) return;
  const words = trouble.reason?.message ?? trouble.message ?? "";
  app.failed ??= `This screen failed (${words}). What was saved is kept; go back to the frame and tell the quality lead.`;
  app.where = { frame: app.where.frame, screen: "frame" };
  app.draw();
}

/** Takes the newest sheet if the record answers; without an answer the tablet goes on with the one it has. */
async function fetchSheet(app) {
  const turn = sheets.asked += 1;
  app.asking = true;
  if (!app.sheet) app.draw();
  try {
    const answer = await fetch(`/api/bench/${encodeURIComponent(root.dataset.bench)}`, { signal: AbortSignal.timeout(app.sheet ? 8000 : 30000) });
    if (answer.status === 401) { showPerson(app, null); return; }
    if (!answer.ok) return;
    const sheet = await answer.json();
    if (turn < sheets.shown) return;
    sheets.shown = turn;
    app.sheet = withFound(sheet, app.found);
    heardBuild(app, answer.headers.get("Bench-Build"));
    await remember(app.store, "sheet", app.sheet);
    await countFrom(app.store, app.sheet.seen);
    await forgetOld(app.store, app.sheet.position);
    showPerson(app, app.sheet.visitor);
    await app.refresh();
  } catch {
    return;
  } finally {
    app.asking = false;
    app.draw();
  }
}

async function heard(app, link) {
  const before = app.link.is;
  app.link = link;
  if (link.is === "taken" || link.is === "idle") await app.refresh();
  if (link.is === "taken") { app.tellOtherTabs(); askRecord(app); }
  if (link.is !== before || link.is === "taken") app.draw({ soon: true });
}

/** Asks what the record says of the joint just logged; judging follows the taking by a moment, so it is asked again. */
async function askRecord(app) {
  const result = app.result;
  for (const wait of [300, 1000, 3000, 10000]) {
    if (!result || app.result !== result || !app.taken.some((each) => each.seq === result.kept.seq)) return;
    await new Promise((over) => setTimeout(over, wait));
    try {
      const answer = await fetch(`/api/verdicts?entry=${encodeURIComponent(result.kept.id)}`, { signal: AbortSignal.timeout(8000) });
      if (!answer.ok) return;
      result.told = await answer.json();
      if (app.result === result) app.draw();
      if (result.told.judged) return;
    } catch {
      return;
    }
  }
}

start().catch((trouble) => {
  root.replaceChildren(Object.assign(document.createElement("p"), {
    className: "red-light",
    textContent: `This tablet cannot keep entries: ${trouble.message || trouble.name}. Write them on paper and tell the quality lead.`,
  }));
});
