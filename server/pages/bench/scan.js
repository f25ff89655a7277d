// What a scanned code means here: a frame, a joint of it, a rod sleeve, a cylinder, a badge; a failed scan blocks no tap.

import { isBadge, mayBeBadge } from "./badge_code.js";
import { badgeRead } from "./people_screen.js";
import { askStock } from "./stock.js";
import { seek } from "./stock_screen.js";

/** Finds what a code names: {what, …} or null. Codes hold the plain names that stand on the labels. */
export function meaningOf(app, code) {
  const text = code.trim();
  const [serial, jointId] = text.split("/");
  const frame = app.frames.find((each) => each.frame === serial);
  if (frame && jointId === undefined) return { what: "frame", frame: serial };
  if (frame?.joints.some((joint) => joint.id === jointId)) return { what: "joint", frame: serial, joint: jointId };
  if (app.sleeves.some((each) => each.sleeve === text)) return { what: "open sleeve", sleeve: text };
  if (app.sheet.stock.sleeves.some((each) => each.sleeve === text)) return { what: "stock sleeve", sleeve: text };
  if (app.sheet.stock.cylinders.some((each) => each.cylinder === text)) return { what: "cylinder", cylinder: text };
  return null;
}

/** Goes where the code points; one the tablet does not know is looked up, and meanwhile nothing else happens. */
export function scanned(app, code) {
  if (isBadge(code)) { badgeRead(app, code.trim()); return; }
  const found = app.sheet ? meaningOf(app, code) : null;
  app.scanNote = found ? null : unknownWords(app, code);
  if (!found) lookUp(app, code.trim());
  else if (found.what === "frame") app.go({ screen: "frame", frame: found.frame });
  else if (found.what === "joint") app.go({ screen: "joint", frame: found.frame, joint: found.joint });
  else if (found.what === "cylinder") goWithCylinder(app, found.cylinder);
  else if (found.what === "stock sleeve") app.go({ screen: "sleeve", only: found.sleeve });
  else if (app.where.screen === "joint" && app.joint) app.change({ sleeve: found.sleeve });
  else app.go({ screen: "gas" });
}

function unknownWords(app, code) {
  if (!app.sheet) return "This tablet has no sheet yet, so it knows no codes. Scan again when it has one.";
  if (mayBeBadge(code)) return "The code was not read whole. Scan it again.";
  return `“${code.trim().slice(0, 40)}” is not known at this bench. Choose by tapping.`;
}

/** Where a cylinder is being chosen for a line, the one scanned is the one that stands there. */
function goWithCylinder(app, cylinder) {
  if (app.where.screen !== "cylinder") { app.go({ screen: "cylinder-line", cylinder }); return; }
  app.where = { ...app.where, part: cylinder, asked: undefined };
  app.draw();
}

/** An older sleeve or cylinder is not on the sheet; where one is being chosen, whatever was scanned may be taken. */
async function lookUp(app, code) {
  if (!app.sheet || mayBeBadge(code)) { app.draw(); return; }
  if (["cylinder", "sleeve"].includes(app.where.screen)) { app.scanNote = null; await seek(app, code); return; }
  const [here, said] = [app.where, app.scanNote];
  app.draw();
  await askStock(app, code);
  if (app.where === here && app.scanNote === said && meaningOf(app, code)) scanned(app, code);
}

const QUICK_MS = 80;
/** A scanner that stutters is still at the same code; what stands there longer was struck by somebody and left. */
const SAME_CODE_MS = 500;
const SHORTEST = 3;

/** Listens to a scanner that types: quick keys with Enter at the end, wherever the focus is, except in a field.
 * One late key does not cut a code in two, and the Enter of a scan never presses what happens to have the focus. */
export function listenToWedge(app, target = globalThis) {
  let typed = "";
  let gaps = [];
  let last = -Infinity;
  const begin = () => { typed = ""; gaps = []; };
  target.addEventListener("keydown", (pressed) => {
    if (pressed.target.matches?.("input, textarea, select")) return;
    const gap = pressed.timeStamp - last;
    if (pressed.key !== "Enter" && pressed.key.length !== 1) return;
    last = pressed.timeStamp;
    if (gap > SAME_CODE_MS) begin();
    else gaps.push(gap);
    if (gap <= SAME_CODE_MS && ["Enter", " "].includes(pressed.key)) pressed.preventDefault();
    if (pressed.key !== "Enter") { typed += pressed.key; return; }
    if (typed.length >= SHORTEST && mostlyQuick(gaps)) scanned(app, typed);
    begin();
  });
}

function mostlyQuick(gaps) {
  return gaps.filter((gap) => gap <= QUICK_MS).length * 2 > gaps.length;
}

/** Watches through the camera until a code is seen or `stop` is called; gives null where the browser offers none. */
export async function watchCamera(video, seen) {
  if (!("BarcodeDetector" in globalThis) || !navigator.mediaDevices) return null;
  const detector = new globalThis.BarcodeDetector({ formats: ["qr_code"] });
  const stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
  video.srcObject = stream;
  await video.play();
  let running = true;
  const stop = () => { running = false; stream.getTracks().forEach((track) => track.stop()); };
  const look = async () => {
    if (!running || !video.isConnected) return stop();
    const [code] = await detector.detect(video).catch(() => []);
    if (code) { stop(); seen(code.rawValue); } else setTimeout(look, 150);
    return null;
  };
  look();
  return stop;
}
