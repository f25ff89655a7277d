// What a scanned code means here: a frame, a joint of it, a rod sleeve, a cylinder, a badge; a failed scan blocks no tap.

import { badgeRead } from "./people_screen.js";

/** A badge is never shown and never looked up among the labels. */
const isBadge = (code) => code.trim().toUpperCase().startsWith("BADGE");

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

/** Goes where the code points; an unknown one is said and nothing else happens. */
export function scanned(app, code) {
  if (isBadge(code)) { badgeRead(app, code.trim()); return; }
  const found = meaningOf(app, code);
  app.scanNote = found ? null : `“${code.trim().slice(0, 40)}” is not known at this bench. Choose by tapping.`;
  if (!found) app.draw();
  else if (found.what === "frame") app.go({ screen: "frame", frame: found.frame });
  else if (found.what === "joint") app.go({ screen: "joint", frame: found.frame, joint: found.joint });
  else if (found.what === "cylinder") app.go({ screen: "cylinder-line", cylinder: found.cylinder });
  else if (found.what === "stock sleeve") app.go({ screen: "sleeve", only: found.sleeve });
  else if (app.where.screen === "joint" && app.joint) app.change({ sleeve: found.sleeve });
  else app.go({ screen: "gas" });
}

/** Listens to a scanner that types: quick keys with Enter at the end, wherever the focus is, except in a field. */
export function listenToWedge(app, target = globalThis) {
  let typed = "";
  let last = 0;
  target.addEventListener("keydown", (pressed) => {
    if (pressed.target.matches?.("input, textarea, select")) return;
    if (pressed.timeStamp - last > 80) typed = "";
    last = pressed.timeStamp;
    if (pressed.key === "Enter" && typed.length >= 3) {
      pressed.preventDefault();
      scanned(app, typed);
      typed = "";
    } else if (pressed.key.length === 1) typed += pressed.key;
  });
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
