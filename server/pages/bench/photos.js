// Pictures at the bench: taking one for a joint, knowing which look it belongs to, and the state of those still here.

import { keepPhotos, openPhotos, photosNow } from "./photo_store.js";
import { makePhotoSender } from "./photo_sender.js";
import { askForPicture, picked } from "./photo_taking.js";

/** Lets the bench take pictures; what waits is counted with the entries, and both are sent by the same tap. */
export async function startPhotos(app) {
  app.photos = [];
  // A tablet that keeps no pictures still keeps entries.
  app.photoStore = await openPhotos().catch(() => null);
  if (!app.photoStore) return;
  const reread = async () => { app.photos = await photosNow(app.photoStore); };
  await reread();
  const sender = makePhotoSender(app.photoStore, async () => { await reread(); app.tellOtherTabs(); app.draw(); });
  const { send, saved, refresh } = app;
  app.send = () => { sender.wake(); return send(); };
  app.saved = (kept) => { sender.wake(); saved(kept); };
  app.refresh = async () => { await reread(); await refresh.call(app); };
  document.addEventListener("visibilitychange", () => { if (!document.hidden) sender.wake(); });
  sender.wake();
}

/** Takes a picture and keeps it, then its entry; the screen says so when both are on disk. Gives whether one was taken. */
export async function takePicture(app, joint, side, zone) {
  const { person, frame: { frame } } = app;
  const attempt = app.progress().joints[joint.id].attempt;
  const file = await askForPicture();
  if (!file) return false;
  try {
    if (!app.photoStore) throw new Error("this tablet’s store keeps no pictures; take it with another one");
    const { blob, sha256, taken } = await picked(file);
    await keepPhotos(app.photoStore, [{ sha256, blob, frame, joint: joint.id, side, zone, taken }]);
    await app.log({ kind: "photo", frame, joint: joint.id, attempt, side, zone, moment: "as welded", sha256, taken }, person);
    return true;
  } catch (trouble) {
    if (!trouble.told) app.failed = `No picture was kept: ${trouble.message || trouble.name}.`;
    return false;
  } finally {
    app.draw();
  }
}

/** The pictures of one joint in this attempt, in the order they were logged. */
export function picturesOf(app, joint) {
  const attempt = app.progress().joints[joint.id].attempt;
  return app.entries().filter((entry) => entry.kind === "photo" && entry.frame === app.frame.frame && entry.joint === joint.id && (entry.attempt ?? attempt) === attempt);
}

/** The picture a look names: the last one of this place, if nobody has named it and the arc has not been there since. */
export function pictureFor(app, joint, side, zone) {
  const own = app.entries().filter((entry) => entry.frame === app.frame.frame && entry.joint === joint.id);
  const last = own.findLast((entry) => entry.kind === "pass" || (entry.side === side && entry.zone === zone && ["photo", "look"].includes(entry.kind)));
  return last?.kind === "photo" ? last.sha256 : undefined;
}

/** How many entries and pictures are on this tablet and nowhere else. */
export function onThisTablet(app) {
  return app.waiting.length + (app.photos?.length ?? 0);
}

/** In words: how many of them are pictures. */
export function photoWords(app) {
  const count = app.photos?.length ?? 0;
  return count ? `${count} ${count === 1 ? "picture" : "pictures"} among them` : "";
}
