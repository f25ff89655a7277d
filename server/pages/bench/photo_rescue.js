// Pictures in a rescue file: their bytes as text, taken up unchanged on another tablet and checked against their digest.

import { keepPhotos, photosNow } from "./photo_store.js";
import { sha256 } from "./sha256.js";

/** Gives every waiting picture with its bytes in base 64. */
export async function photosToRescue(app) {
  const found = app.photoStore ? await photosNow(app.photoStore) : [];
  return Promise.all(found.map(async ({ blob, problem, ...about }) => ({ ...about, base64: await asText(blob) })));
}

/** Keeps the pictures of a rescue file here; gives words for how many, and drops none silently. */
export async function photosFromRescue(app, found) {
  if (!Array.isArray(found) || found.length === 0) return "";
  const read = await Promise.all(found.map(async ({ base64, ...about }) => {
    const bytes = Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
    return (await sha256(bytes.buffer)) === about.sha256 ? { ...about, blob: new Blob([bytes], { type: "image/jpeg" }) } : null;
  }));
  const whole = read.filter(Boolean);
  await keepPhotos(app.photoStore, whole);
  const spoilt = read.length - whole.length;
  return ` and ${whole.length} ${whole.length === 1 ? "picture" : "pictures"}${spoilt ? `; ${spoilt} are spoilt and were left` : ""}`;
}

function asText(blob) {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result).split(",")[1]);
    reader.onerror = () => reject(reader.error);
    reader.readAsDataURL(blob);
  });
}
