// Pictures waiting on the tablet: kept before the screen says so, let go only against the record's own receipt.

import { answer, within } from "./store.js";

const NAME = "strawline-photos";

/** Opens the store of pictures, apart from the entries, so that neither ever waits for the other. */
export function openPhotos(name = NAME) {
  return new Promise((resolve, reject) => {
    const asked = indexedDB.open(name, 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore("waiting", { keyPath: "sha256" });
    asked.onsuccess = () => {
      asked.result.onversionchange = () => asked.result.close();
      resolve(asked.result);
    };
    asked.onerror = () => reject(asked.error);
    asked.onblocked = () => reject(new Error("another tab holds an older store open; close it"));
  });
}

/** Keeps pictures, {sha256, blob, frame, joint, side, zone, taken}; resolves once they are on disk. The same again is one. */
export function keepPhotos(photos, found) {
  return within(photos, ["waiting"], "readwrite", ({ waiting }) => { for (const each of found) waiting.put(each); });
}

/** Gives what waits, oldest first; the bytes stay on disk until somebody reads them. */
export async function photosNow(photos) {
  const found = await within(photos, ["waiting"], "readonly", ({ waiting }) => answer(waiting.getAll()));
  return found.sort((a, b) => (a.taken < b.taken ? -1 : 1));
}

/** Tells whether this is the record's receipt for this picture; nothing else lets it go. */
export function isReceiptForPhoto(said, sha256) {
  return said?.sha256 === sha256 && ["taken", "taken before"].includes(said.receipt?.taken) && typeof said.receipt.leaf === "string";
}

/** Lets a picture go against its receipt; gives whether it went. */
export async function letGo(photos, sha256, said) {
  if (!isReceiptForPhoto(said, sha256)) return false;
  await within(photos, ["waiting"], "readwrite", ({ waiting }) => { waiting.delete(sha256); });
  return true;
}

/** Notes why the record did not take a picture; it stays on the tablet until somebody has looked. */
export function noteRefusal(photos, sha256, problem) {
  return within(photos, ["waiting"], "readwrite", async ({ waiting }) => {
    const kept = await answer(waiting.get(sha256));
    if (kept) waiting.put({ ...kept, problem });
  });
}
